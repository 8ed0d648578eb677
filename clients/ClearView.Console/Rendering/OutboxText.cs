using System.Text.Json.Nodes;

using ClearView.Client.Outbox;
using ClearView.Console.Judging;
using ClearView.Console.Rendering.Decisions;
using ClearView.V1;

namespace ClearView.Console.Rendering;

/// <summary>Writes what happens in an outbox, one line each, as text or as JSON.</summary>
internal static class OutboxText
{
    private static readonly object Gate = new();

    /// <summary>Writes an event; lines of several threads do not mix.</summary>
    /// <param name="screen">Takes it.</param>
    /// <param name="what">The event.</param>
    /// <param name="limits">What limits say of a stored reading; <see langword="null"/> where there are none.</param>
    /// <param name="asJson">Whether it is JSON.</param>
    public static void Write(Screen screen, OutboxEvent what, LimitsVerdict? limits, bool asJson)
    {
        var word = Word(what.Kind);
        var message = string.Join(' ', what.Message.Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries));
        var line = asJson ? ToJson(what, word, message, limits).ToJsonString() : ToText(what, word, message, limits);
        lock (Gate)
        {
            screen.Output.Write(line + "\n");
            screen.Output.Flush();
        }
    }

    private static JsonObject ToJson(OutboxEvent what, string word, string message, LimitsVerdict? limits)
    {
        var node = new JsonObject
        {
            ["event"] = word,
            ["sequence"] = what.Sequence,
            ["readingId"] = what.ReadingId,
            ["line"] = what.Line,
            ["specimen"] = what.Specimen,
            ["message"] = message,
        };
        if (what.Acknowledgement is { } acknowledgement)
        {
            node["verdict"] = JsonText.OfMessage(acknowledgement.Verdict);
            node["signals"] = new JsonArray([.. acknowledgement.Signals.Select(JsonText.OfMessage)]);
        }
        if (limits is not null)
        {
            JsonText.AddVerdict(node, limits);
        }
        return node;
    }

    private static string ToText(OutboxEvent what, string word, string message, LimitsVerdict? limits)
    {
        List<string> parts = [word, what.ReadingId, what.Line.Length > 0 ? $"line {what.Line}" : "", what.Specimen, message];
        if (limits is not null)
        {
            parts.Add(VerdictText.Word(limits.Judgement));
            parts.AddRange(limits.Outcomes.Where(outcome => outcome.Judgement != Judgement.Pass).Select(outcome => outcome.Reason));
        }
        if (what.Acknowledgement is { } acknowledgement)
        {
            parts.Add(acknowledgement.Verdict is null ? "" : VerdictColumn.Of(acknowledgement.Verdict));
            parts.AddRange(acknowledgement.Verdict is { Outcome: not VerdictOutcome.Conformity } verdict ? verdict.Reasons : []);
            parts.AddRange(acknowledgement.Signals.Select(Signal));
        }
        return string.Join("  ", parts.Where(part => part.Length > 0));
    }

    private static string Signal(RaisedSignal signal) =>
        $"! {DecisionText.Versioned(signal.ControlChartName.Name, signal.ControlChartName.Version)}: {signal.Message}{(signal.Revised ? " LATE" : "")}";

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
