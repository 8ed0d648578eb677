using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.Contract.Studies;
using ClearView.Plotting.Decisions;
using ClearView.V1;

namespace ClearView.Console.Commands.Studies;

/// <summary>What the readings of a roll say across and along the web.</summary>
internal sealed class RollMapCommand : DocumentedCommand
{
    private readonly StudyArguments _arguments = new();
    private readonly MeasurandChoice _measurand = new();
    private readonly LimitValues _limits = new();
    private readonly CheckedOption<double[]> _lanes = NumberOptions.Count("--lanes", "Lanes across (CD). [default: as many as the readings have places, 24 at most]", 1, 1000);
    private readonly CheckedOption<double[]> _blocks = NumberOptions.Count("--blocks", "Blocks along (MD). [default: 60 at most]", 1, 10_000);
    private readonly CheckedOption<double[]> _confidence = NumberOptions.Confidence();
    private readonly CheckedOption<double[]> _streakLevel = NumberOptions.Share("--streak-level", "Level of the streak test for all lanes together, %. [default: 1]");
    private readonly CheckedOption<double[]> _leastStreak = NumberOptions.Positive("--least-streak", "Smallest deviation of a lane that matters, in the measurand's unit. [default: any]");

    private readonly CheckedOption<double[]> _largestShare = new(
        "--largest-share", "PERCENT", "Share of readings that may lie beyond a limit, %. [default: 0]",
        text => Numerals.ReadWithin(text, 0, 100), "write a number from 0 to 100");

    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public RollMapCommand(Screen screen)
        : base("roll-map", "Map a roll: profile across (CD), trend along (MD), streaks, spread, readings beyond limits.",
        [
            "clearview roll-map --measurand haze --roll 14 --upper 3",
            "clearview roll-map --measurand haze --roll 14 --specification lidding-38 --chart roll-14.png",
            "clearview roll-map roll-14.csv --measurand haze --upper 3 --lanes 8 --largest-share 1",
        ])
    {
        _screen = screen;
        _arguments.AddFileTo(this);
        BeginGroup("Question", _measurand.AddTo(this));
        _limits.AddTo(this);
        foreach (var option in (Option[])[_largestShare.Option, _lanes.Option, _blocks.Option, _streakLevel.Option, _leastStreak.Option, _confidence.Option])
        {
            Add(option);
        }
        _arguments.AddOriginTo(this);
        _arguments.AddOutputTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var measurand = _measurand.Resolve(parsed).Id;
        var request = new MapRollRequest
        {
            Options = new RollOptions
            {
                LaneCount = (uint)(_lanes.Resolve(parsed)?[0] ?? 0),
                BlockCount = (uint)(_blocks.Resolve(parsed)?[0] ?? 0),
                ConfidencePercent = _confidence.Resolve(parsed)?[0] ?? 0,
                StreakLevelPercent = _streakLevel.Resolve(parsed)?[0] ?? 0,
                LeastStreakDeviation = _leastStreak.Resolve(parsed)?[0] ?? 0,
                LargestShareOutsidePercent = _largestShare.Resolve(parsed)?[0] ?? 0,
            },
        };
        if (_limits.Values(parsed) is { } limits)
        {
            request.Limits = limits;
        }
        else if (_limits.Specification(parsed) is { } specification)
        {
            request.SpecificationName = specification;
        }
        await using var client = _arguments.Connect(parsed);
        StudyArguments.RequireServerFor(request.SpecificationName, client);
        var (given, stored) = _arguments.Series(_screen, parsed, measurand);
        if (given is not null)
        {
            request.Given = given;
        }
        else
        {
            request.Stored = stored;
        }
        var map = client is null ? Refusal.Answer(RollStudy.Map(request)).RollMap : await client.MapRollAsync(request, cancellation);
        if (_arguments.WantsJson(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(new MapRollResponse { RollMap = map })!);
        }
        else
        {
            RollScreen.Write(_screen, map);
        }
        _arguments.Draw(_screen, parsed, ("", () => RollMapChart.Build(map)));
        return map.Outcome is VerdictOutcome.Unspecified or VerdictOutcome.Conformity ? ExitCode.Ok : ExitCode.LimitFailed;
    }
}
