using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Console.Rendering.Decisions;
using ClearView.Contract.Studies;
using ClearView.Plotting.Decisions;
using ClearView.V1;

namespace ClearView.Console.Commands.Studies;

/// <summary>Capability and performance of a process against limits.</summary>
internal sealed class CapabilityCommand : DocumentedCommand
{
    private readonly StudyArguments _arguments = new();
    private readonly MeasurandChoice _measurand = new();
    private readonly LimitValues _limits = new();
    private readonly CheckedOption<double[]> _confidence = NumberOptions.Confidence();
    private readonly CheckedOption<double[]> _subgroup = NumberOptions.Count(
        "--subgroup", "Readings per subgroup for the spread within. [default: none, from the moving range]", 1, 25);

    private readonly CheckedOption<CapabilityModel[]> _model = new(
        "--model", "MODEL", "Model of the distribution: normal, box-cox or percentiles. [default: what the normality test allows]",
        text => text switch
        {
            "normal" => [CapabilityModel.Normal],
            "box-cox" => [CapabilityModel.BoxCox],
            "percentiles" => [CapabilityModel.Percentiles],
            _ => null,
        },
        "write normal, box-cox or percentiles");

    private readonly Option<bool> _evenIfUnstable = new("--even-if-unstable") { Description = "Give indices although the process is not stable; they describe the past and foretell nothing." };
    private readonly Screen _screen;

    /// <summary>Creates the command.</summary>
    public CapabilityCommand(Screen screen)
        : base("capability", "Capability and performance of a process against limits (ISO 22514), or why there are no indices.",
        [
            "clearview capability --measurand haze --line 3 --from 2026-03-01 --upper 3",
            "clearview capability --measurand haze --specification lidding-38 --chart capability.png",
            "clearview capability values.csv --measurand haze --lower 0.5 --upper 3 --target 1.5",
        ])
    {
        _screen = screen;
        _arguments.AddFileTo(this);
        BeginGroup("Question", _measurand.AddTo(this));
        _limits.AddTo(this);
        Add(_model.Option);
        Add(_subgroup.Option);
        Add(_confidence.Option);
        Add(_evenIfUnstable);
        _arguments.AddOriginTo(this);
        _arguments.AddOutputTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, () => RunAsync(parsed, cancellation)));
    }

    private async Task<int> RunAsync(ParseResult parsed, CancellationToken cancellation)
    {
        var measurand = _measurand.Resolve(parsed).Id;
        var request = new EstimateCapabilityRequest
        {
            Options = new CapabilityOptions
            {
                ConfidencePercent = _confidence.Resolve(parsed)?[0] ?? 0,
                Model = _model.Resolve(parsed)?[0] ?? CapabilityModel.Unspecified,
                SubgroupCount = (uint)(_subgroup.Resolve(parsed)?[0] ?? 0),
                EvenIfUnstable = parsed.GetValue(_evenIfUnstable),
            },
        };
        if (_limits.Values(parsed) is { } limits)
        {
            request.Limits = limits;
        }
        else
        {
            request.SpecificationName = _limits.Specification(parsed)
                ?? throw new UsageException("there are no limits: give --lower or --upper, or --specification NAME");
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
        var capability = client is null
            ? Refusal.Answer(CapabilityStudy.Estimate(request)).Capability
            : await client.EstimateCapabilityAsync(request, cancellation);
        if (_arguments.WantsJson(parsed))
        {
            JsonText.Write(_screen, JsonText.OfMessage(new EstimateCapabilityResponse { Capability = capability })!);
        }
        else
        {
            CapabilityScreen.Write(_screen, capability);
        }
        _arguments.Draw(_screen, parsed, ("", () => CapabilityChart.Build(capability)));
        return capability.Refusal.Length > 0 ? ExitCode.LimitFailed : ExitCode.Ok;
    }
}
