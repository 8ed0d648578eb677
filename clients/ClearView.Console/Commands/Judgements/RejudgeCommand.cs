using System.CommandLine;
using System.Text.Json.Nodes;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.V1;

namespace ClearView.Console.Commands.Judgements;

/// <summary>Judges stored readings under any version of a specification, beside the verdict that each was stored with.</summary>
internal sealed class RejudgeCommand : DocumentedCommand
{
    private readonly CheckedOption<SpecificationName> _specification = new(
        "--specification", "NAME[@VERSION]", "The specification; the newest version unless one is given. Its product is looked at unless --product is given.",
        StoredNames.Specification, "write a specification's name, or NAME@VERSION");

    private readonly OriginOptions _origin = new();
    private readonly Option<bool> _byLot = new("--by-lot") { Description = "Judge the readings of each lot together, by their mean." };
    private readonly Option<bool> _byRoll = new("--by-roll") { Description = "Judge the readings of each roll together, by their mean." };
    private readonly ServerOption _server = new(isOptional: false);
    private readonly JsonOption _json = new();
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public RejudgeCommand(Screen screen)
        : base("rejudge", "Judge stored readings under any version of a specification, beside the verdict that each was stored with. Nothing is stored.",
        [
            "clearview rejudge --specification lidding-38 --line 3 --from 2026-03-02",
            "clearview rejudge --specification lidding-38@2 --lot R-2201 --by-roll",
        ])
    {
        _screen = screen;
        _specification.Option.Required = true;
        Add(_specification.Option);
        _origin.AddTo(this, withInstrument: false);
        Add(_byLot);
        Add(_byRoll);
        _server.AddTo(this);
        _json.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        if (parsed.GetValue(_byLot) && parsed.GetValue(_byRoll))
        {
            throw new UsageException("--by-lot and --by-roll do not go together; give one of them");
        }
        var request = new JudgeReadingsRequest
        {
            SpecificationName = _specification.Resolve(parsed),
            Line = _origin.Line(parsed),
            Product = _origin.Product(parsed),
            Lot = _origin.Lot(parsed),
            Roll = _origin.Roll(parsed),
            Span = _origin.Span(parsed),
            Group = parsed.GetValue(_byLot) ? JudgementGroup.Lot : parsed.GetValue(_byRoll) ? JudgementGroup.Roll : JudgementGroup.Unspecified,
        };
        var judged = new List<JudgeReadingsResponse>();
        await using var client = _server.Connect(parsed);
        await foreach (var one in client.JudgeReadingsAsync(request, cancellation))
        {
            judged.Add(one);
        }
        if (_json.IsGiven(parsed))
        {
            JsonText.Write(_screen, new JsonObject { ["judged"] = new JsonArray([.. judged.Select(JsonText.OfMessage)]) });
        }
        else
        {
            RejudgedTable.Write(_screen, judged);
        }
        return judged.TrueForAll(one => one.Verdict.Outcome == VerdictOutcome.Conformity) ? ExitCode.Ok : ExitCode.LimitFailed;
    }
}
