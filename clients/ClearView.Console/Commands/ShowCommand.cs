using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Console.Judging;
using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;

namespace ClearView.Console.Commands;

/// <summary>Shows one stored reading in full.</summary>
internal sealed class ShowCommand : DocumentedCommand
{
    private readonly Argument<string> _id = new("id") { Description = "The reading's identifier, as post and list show it." };
    private readonly LimitOption _limits = new();
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public ShowCommand(Screen screen)
        : base("show", "Show one stored reading in full.",
        [
            "clearview show 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11",
            "clearview show 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 --limit \"haze<=2.0\"",
            "clearview show 019cae1a-7d20-7c1e-9b1a-5b8f0a6f3c11 --json",
        ])
    {
        _screen = screen;
        Add(_id);
        _limits.AddTo(this);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    /// <summary>A stored reading for scripts.</summary>
    public static JsonObject ToJson(SpecimenResult result)
    {
        var node = new JsonObject { ["reading"] = JsonText.OfMessage(result.Reading) };
        JsonText.AddVerdict(node, result.Verdict);
        return node;
    }

    /// <summary>Reads a reading's identifier.</summary>
    /// <exception cref="UsageException">It is none.</exception>
    public static Guid ReadId(string text) => Guid.TryParseExact(text, "D", out var id)
        ? id
        : throw new UsageException($"\"{text}\" is not a reading's identifier; it has 36 characters, as post and list show it");

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var id = ReadId(parsed.GetRequiredValue(_id));
        var limits = _limits.Resolve(parsed);
        await using var client = _server.Connect(parsed);
        var reading = await client.GetAsync(id, cancellation);
        var result = new SpecimenResult
        {
            Measurement = reading.Measurement,
            Reading = reading,
            Evaluation = reading.Evaluation,
            Verdict = LimitsVerdict.Of(reading.Evaluation, limits),
        };
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, ToJson(result));
        }
        else
        {
            SpecimenDetail.Write(_screen, result, limits);
            if (reading.Verdict is { } verdict)
            {
                _screen.Line();
                _screen.Line("[bold]Verdict at the time of posting[/]");
                VerdictScreen.Write(_screen, verdict);
            }
        }
        return Outcome.Report(_screen, [result], 0);
    }
}
