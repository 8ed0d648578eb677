using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Client.Outbox;
using ClearView.Console.Options;
using ClearView.Console.Rendering;

namespace ClearView.Console.Commands.Outboxes;

/// <summary>Tells what waits in an outbox and what needs somebody.</summary>
internal sealed class OutboxStatusCommand : DocumentedCommand
{
    private readonly OutboxOption _outbox = new();
    private readonly JsonOption _json = new();

    /// <summary>Creates the command.</summary>
    public OutboxStatusCommand(Screen screen)
        : base("status", "Tell what waits and since when, how much room there is, and what was refused or damaged.",
        [
            "clearview outbox status",
            "clearview outbox status --outbox line3 --json",
        ])
    {
        _outbox.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, _) => CommandRunner.RunAsync(screen, () => Task.FromResult(Run(screen, parsed))));
    }

    private int Run(Screen screen, ParseResult parsed)
    {
        var status = OutboxStatus.Read(_outbox.Folder(parsed));
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(screen, ToJson(status));
        }
        else
        {
            Show(screen, status);
        }
        return status.Alarms.Length + status.Refused.Length + status.Quarantined.Length > 0 ? ExitCode.BadInput : ExitCode.Ok;
    }

    private static void Show(Screen screen, OutboxStatus status)
    {
        Row("Outbox", status.Folder);
        Row("Poster", status.IsRunning ? "running" : "not running");
        Row("Waiting", NumberText.Plain(status.Waiting));
        foreach (var line in status.Lines)
        {
            Row("", $"{(line.Line.Length > 0 ? $"line {line.Line}" : "no line")}: {NumberText.Plain(line.Waiting)} since {TimeText.Of(line.Since)}");
        }
        Row("Room", $"{ByteText.Of(status.UsedBytes)} of {ByteText.Of(status.LimitBytes)}; {ByteText.Of(status.FreeBytes)} free on the disk");
        Row("Refused", NumberText.Plain(status.Refused.Length));
        foreach (var one in status.Refused)
        {
            Row("", $"{one.ReadingId}  {one.Specimen}  {one.Reasons}");
        }
        Row("Quarantined", NumberText.Plain(status.Quarantined.Length));
        foreach (var path in status.Quarantined)
        {
            Row("", path);
        }
        Row("Alarm", status.Alarms.IsEmpty ? "none" : string.Join("; ", status.Alarms));

        void Row(string name, string text) => screen.Output.Write($"{name,-12} {text}\n");
    }

    private static JsonObject ToJson(OutboxStatus status) => new()
    {
        ["outbox"] = status.Folder,
        ["running"] = status.IsRunning,
        ["waiting"] = status.Waiting,
        ["lines"] = new JsonArray([.. status.Lines.Select(line => (JsonNode)new JsonObject
        {
            ["line"] = line.Line, ["waiting"] = line.Waiting, ["since"] = TimeText.Of(line.Since),
        })]),
        ["usedBytes"] = status.UsedBytes,
        ["limitBytes"] = status.LimitBytes,
        ["freeBytes"] = status.FreeBytes,
        ["leastFreeBytes"] = status.LeastFreeBytes,
        ["refused"] = new JsonArray([.. status.Refused.Select(one => (JsonNode)new JsonObject
        {
            ["readingId"] = one.ReadingId, ["line"] = one.Line, ["specimen"] = one.Specimen, ["refusedAt"] = TimeText.Of(one.RefusedAt), ["reasons"] = one.Reasons,
        })]),
        ["quarantined"] = new JsonArray([.. status.Quarantined.Select(path => (JsonNode)path)]),
        ["alarms"] = new JsonArray([.. status.Alarms.Select(alarm => (JsonNode)alarm)]),
    };
}
