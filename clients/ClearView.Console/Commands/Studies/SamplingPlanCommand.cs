using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.Plotting.Decisions;
using ClearView.V1;

namespace ClearView.Console.Commands.Studies;

/// <summary>A plan for acceptance by variables.</summary>
internal sealed class SamplingPlanCommand : DocumentedCommand
{
    private readonly CheckedOption<double[]> _acceptable = NumberOptions.Share("--acceptable", "Share beyond the limit of a lot that should pass, %.");

    private readonly CheckedOption<double[]> _rejectable = new(
        "--rejectable", "PERCENT", "Share beyond the limit of a lot that should not pass, %; above the acceptable one.",
        text => Numerals.Read(text) is > 0 and < 100 and { } value ? [value] : null, "write a number above 0 and below 100, for example 6");

    private readonly CheckedOption<double[]> _producer = NumberOptions.Share("--producers-risk", "Probability of refusing a lot that should pass, %. [default: 5]");
    private readonly CheckedOption<double[]> _consumer = NumberOptions.Share("--consumers-risk", "Probability of passing a lot that should not, %. [default: 10]");
    private readonly SamplingRun _run = new();
    private readonly ChartFileOption _chart = new();

    /// <summary>Creates the command.</summary>
    public SamplingPlanCommand(Screen screen)
        : base("plan", "A plan for acceptance by variables for one limit, standard deviation unknown, with its operating characteristic.",
        [
            "clearview sampling plan --acceptable 1 --rejectable 6",
            "clearview sampling plan --acceptable 1 --rejectable 6 --consumers-risk 5 --chart plan.png",
        ])
    {
        _acceptable.Option.Required = true;
        _rejectable.Option.Required = true;
        foreach (var option in (Option[])[_acceptable.Option, _rejectable.Option, _producer.Option, _consumer.Option])
        {
            Add(option);
        }
        BeginGroup("Question", _acceptable.Option);
        _run.AddTo(this);
        _chart.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, async () =>
        {
            var response = await _run.AskAsync(screen, parsed, Question(parsed), cancellation);
            _chart.Write(screen, parsed, ("", () => OperatingCharacteristicChart.Build(response.AcceptancePlan)));
            return ExitCode.Ok;
        }));
    }

    private PlanSamplingRequest Question(ParseResult parsed) => new()
    {
        AcceptancePlan = new AcceptancePlanRequest
        {
            AcceptableQualityPercent = _acceptable.Resolve(parsed)![0],
            RejectableQualityPercent = _rejectable.Resolve(parsed)![0],
            ProducersRiskPercent = _producer.Resolve(parsed)?[0] ?? 0,
            ConsumersRiskPercent = _consumer.Resolve(parsed)?[0] ?? 0,
        },
    };
}
