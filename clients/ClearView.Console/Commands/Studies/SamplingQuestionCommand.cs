using System.Collections.Immutable;
using System.CommandLine;

using ClearView.Console.Options;
using ClearView.Console.Rendering;
using ClearView.V1;

namespace ClearView.Console.Commands.Studies;

/// <summary>A question on how many specimens to take.</summary>
internal sealed class SamplingQuestionCommand : DocumentedCommand
{
    private readonly SamplingRun _run = new();

    private SamplingQuestionCommand(Screen screen, string name, string description, ImmutableArray<string> examples, Func<ParseResult, PlanSamplingRequest> ask, params ReadOnlySpan<Option> options)
        : base(name, description, examples)
    {
        foreach (var option in options)
        {
            Add(option);
        }
        BeginGroup("Question", options[0]);
        _run.AddTo(this);
        SetAction((parsed, cancellation) => CommandRunner.RunAsync(screen, async () =>
        {
            await _run.AskAsync(screen, parsed, ask(parsed), cancellation);
            return ExitCode.Ok;
        }));
    }

    /// <summary>A mean within a margin.</summary>
    public static SamplingQuestionCommand Mean(Screen screen)
    {
        var spread = Spread();
        var halfWidth = Required(NumberOptions.Positive("--half-width", "Half the width of the interval wanted, in the same unit."));
        var confidence = NumberOptions.Confidence();
        var known = new Option<bool>("--known-standard-deviation") { Description = "The standard deviation is known from long practice: none is estimated from the sample." };
        return new SamplingQuestionCommand(
            screen, "mean", "Specimens for a mean to be known within a margin.",
            [
                "clearview sampling mean --standard-deviation 0.15 --half-width 0.1",
                "clearview sampling mean --standard-deviation 0.15 --half-width 0.1 --known-standard-deviation",
            ],
            parsed => new PlanSamplingRequest
            {
                Mean = new MeanSampleSize
                {
                    StandardDeviation = Number(spread, parsed),
                    Margin = Number(halfWidth, parsed),
                    KnownSpread = parsed.GetValue(known),
                    ConfidencePercent = Number(confidence, parsed),
                },
            },
            spread.Option, halfWidth.Option, known, confidence.Option);
    }

    /// <summary>A difference between two lots.</summary>
    public static SamplingQuestionCommand Difference(Screen screen)
    {
        var spread = Spread();
        var difference = Required(NumberOptions.Positive("--difference", "True difference of the means that is to be shown, in the same unit."));
        var (power, confidence) = (Power(), NumberOptions.Confidence());
        return new SamplingQuestionCommand(
            screen, "difference", "Specimens per lot to show a difference between two lots.",
            [
                "clearview sampling difference --standard-deviation 0.15 --difference 0.2",
                "clearview sampling difference --standard-deviation 0.15 --difference 0.2 --power 90",
            ],
            parsed => new PlanSamplingRequest
            {
                Difference = new DifferenceSampleSize
                {
                    StandardDeviation = Number(spread, parsed),
                    Difference = Number(difference, parsed),
                    PowerPercent = Number(power, parsed),
                    ConfidencePercent = Number(confidence, parsed),
                },
            },
            spread.Option, difference.Option, power.Option, confidence.Option);
    }

    /// <summary>Equivalence of two lots.</summary>
    public static SamplingQuestionCommand Equivalence(Screen screen)
    {
        var spread = Spread();
        var margin = Required(NumberOptions.Positive("--margin", "Difference below which the lots count as equivalent, in the same unit."));
        var difference = NumberOptions.Positive("--difference", "True difference of the means, smaller than the margin. [default: none]");
        var (power, confidence) = (Power(), NumberOptions.Confidence());
        return new SamplingQuestionCommand(
            screen, "equivalence", "Specimens per lot to show that two lots are equivalent.",
            [
                "clearview sampling equivalence --standard-deviation 0.15 --margin 0.2",
                "clearview sampling equivalence --standard-deviation 0.15 --margin 0.2 --difference 0.05",
            ],
            parsed => new PlanSamplingRequest
            {
                Equivalence = new EquivalenceSampleSize
                {
                    StandardDeviation = Number(spread, parsed),
                    Margin = Number(margin, parsed),
                    Difference = Number(difference, parsed),
                    PowerPercent = Number(power, parsed),
                    ConfidencePercent = Number(confidence, parsed),
                },
            },
            spread.Option, margin.Option, difference.Option, power.Option, confidence.Option);
    }

    private static CheckedOption<double[]> Spread() =>
        Required(NumberOptions.Positive("--standard-deviation", "Standard deviation of specimens within a lot, in the measurand's unit, for example from compare-lots."));

    private static CheckedOption<double[]> Power() => NumberOptions.Level("--power", "Probability of showing it, %. [default: 80]");

    private static CheckedOption<double[]> Required(CheckedOption<double[]> option)
    {
        option.Option.Required = true;
        return option;
    }

    private static double Number(CheckedOption<double[]> option, ParseResult parsed) => option.Resolve(parsed)?[0] ?? 0;
}
