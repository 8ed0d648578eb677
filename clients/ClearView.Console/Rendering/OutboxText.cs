using System.Text.Json.Nodes;

using ClearView.Client.Outbox;

namespace ClearView.Console.Rendering;

/// <summary>Writes what happens in an outbox, one line each, as text or as JSON.</summary>
internal static class OutboxText
{
    private static readonly object Gate = new();

    /// <summary>Writes an event; lines of several threads do not mix.</summary>
    public static void Write(Screen screen, OutboxEvent what, bool asJson)
    {
        var word = Word(what.Kind);
        var message = string.Join(' ', what.Message.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));
        var line = asJson
            ? new JsonObject
            {
                ["event"] = word,
                ["sequence"] = what.Sequence,
                ["readingId"] = what.ReadingId,
                ["line"] = what.Line,
                ["specimen"] = what.Specimen,
                ["message"] = message,
            }.ToJsonString()
            : string.Join("  ", new[] { word, what.ReadingId, what.Line.Length > 0 ? $"line {what.Line}" : "", what.Specimen, message }.Where(part => part.Length > 0));
        lock (Gate)
        {
            screen.Output.Write(line + "\n");
            screen.Output.Flush();
        }
    }

    /// <summary>The word for what happened.</summary>
    public static string Word(OutboxEventKind kind) => kind switch
    {
        OutboxEventKind.Accepted => "accepted",
        OutboxEventKind.Stored => "stored",
        OutboxEventKind.AlreadyStored => "there",
        OutboxEventKind.Refused => "refused",
        OutboxEventKind.Waiting => "waiting",
        OutboxEventKind.Quarantined => "quarantined",
        OutboxEventKind.TailCut => "cut",
        OutboxEventKind.Alarm => "alarm",
        _ => "alarm-ended",
    };
}
