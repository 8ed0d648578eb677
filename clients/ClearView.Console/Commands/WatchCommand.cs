using System.CommandLine;
using System.Text.Json;
using System.Text.Json.Nodes;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands;

/// <summary>Shows readings as they are stored.</summary>
internal sealed class WatchCommand : DocumentedCommand
{
    private readonly Option<string> _line = new("--line") { HelpName = "TEXT", Description = "Only this production line, exactly." };
    private readonly Option<string> _product = new("--product") { HelpName = "TEXT", Description = "Only this product, exactly." };
    private readonly Option<string> _lot = new("--lot") { HelpName = "TEXT", Description = "Only this lot, exactly." };
    private readonly Option<string> _roll = new("--roll") { HelpName = "TEXT", Description = "Only this roll, exactly." };
    private readonly Option<bool> _onlyAlarms = new("--only-alarms") { Description = "Only readings that are not proven to conform, or raise a signal." };
    private readonly Option<bool> _fromBeginning = new("--from-beginning") { Description = "Begin with the first stored reading, not with the next one." };
    private readonly Option<string> _position = new("--position") { HelpName = "FILE", Description = "Keep the place in this file, and go on from it next time." };
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public WatchCommand(Screen screen)
        : base("watch", "Show readings as they are stored, with verdicts and signals. Ctrl+C ends it.",
        [
            "clearview watch",
            "clearview watch --line 3 --only-alarms",
            "clearview watch --position line3.place --json",
        ])
    {
        _screen = screen;
        foreach (var option in (Option[])[_line, _product, _lot, _roll, _onlyAlarms, _fromBeginning, _position])
        {
            Add(option);
        }
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var place = parsed.GetValue(_position) is { } path ? new WatchPlace(path) : null;
        var request = new WatchReadingsRequest
        {
            Position = place?.Read() ?? "",
            Line = parsed.GetValue(_line) ?? "",
            Product = parsed.GetValue(_product) ?? "",
            Lot = parsed.GetValue(_lot) ?? "",
            Roll = parsed.GetValue(_roll) ?? "",
            OnlyAlarms = parsed.GetValue(_onlyAlarms),
            OmitSpectra = true,
        };
        request.FromBeginning = parsed.GetValue(_fromBeginning) && request.Position.Length == 0;
        var asJson = _json.IsGiven(parsed);
        await using var client = _server.Connect(parsed);
        try
        {
            if (!asJson)
            {
                WatchLines.WriteHeader(_screen);
            }
            await foreach (var answer in client.WatchAsync(request, fault => _screen.Note($"{fault.Message}; going on as soon as it is back"), cancellation))
            {
                if (answer.Reading is { } reading)
                {
                    Show(reading, asJson);
                }
                // Only after it was shown: what a stop comes between is shown again rather than lost.
                place?.Write(answer.Position);
            }
        }
        catch (OperationCanceledException) when (cancellation.IsCancellationRequested)
        {
            // Ctrl+C is how a watch ends.
        }
        return ExitCode.Ok;
    }

    private void Show(Reading reading, bool asJson)
    {
        if (asJson)
        {
            _screen.Output.Write(new JsonObject { ["reading"] = JsonText.OfMessage(reading) }.ToJsonString(JsonSerializerOptions.Default) + "\n");
        }
        else
        {
            WatchLines.Write(_screen, reading);
        }
        _screen.Output.Flush();
    }
}
