using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;

namespace ClearView.Plotting.Decisions;

/// <summary>Centre line and limits of a control chart as series and as names at the right edge.</summary>
internal static class StepLines
{
    private const double SigmasToLimit = 3;

    private static readonly ChartPoint Gap = new(double.NaN, double.NaN);
    private static readonly SeriesLook LimitLook = new(LineKind.Dashed, MarkKind.None, Ink.Vermilion) { LineWidth = 1.6 };
    private static readonly SeriesLook CentreLook = new(LineKind.Solid, MarkKind.None, Ink.Green) { LineWidth = 1.8 };

    /// <summary>The lines, interrupted where a phase ends.</summary>
    public static ImmutableArray<SeriesModel> Series(LimitStep[] steps, string centreLabel, string limitLabel) =>
    [
        new SeriesModel { Label = centreLabel, Look = CentreLook, Points = Line(steps, step => step.Centre) },
        new SeriesModel { Label = limitLabel, Look = LimitLook, Points = [.. Line(steps, step => step.Upper), Gap, .. Line(steps, step => step.Lower)] },
    ];

    /// <summary>The last limits with their figures.</summary>
    public static ImmutableArray<AxisTick> Names(LimitStep[] steps, string centre, string unit)
    {
        LimitStep last = steps[^1];
        (double Value, string Name)[] names = [(last.Upper, "upper"), (last.Centre, centre), (last.Lower, "lower")];
        double reach = double.IsFinite(last.Upper) ? last.Upper - last.Centre : last.Centre - last.Lower;
        return
        [
            .. names.Where(name => double.IsFinite(name.Value))
                .Select(name => new AxisTick(name.Value, name.Value == 0 ? name.Name : $"{name.Name} {Figure(name.Value, reach)}{Wording.Suffix(unit)}")),
        ];
    }

    /// <summary>A value to two digits of the standard deviation, which is a third of the way to a limit.</summary>
    public static string Figure(double value, double reach) =>
        reach > 0 && double.IsFinite(reach) ? Digits.Beside(value, reach / SigmasToLimit) : Wording.Number(value);

    private static ImmutableArray<ChartPoint> Line(LimitStep[] steps, Func<LimitStep, double> value)
    {
        var line = ImmutableArray.CreateBuilder<ChartPoint>();
        for (int i = 0; i < steps.Length; i++)
        {
            if (i > 0 && steps[i].Phase != steps[i - 1].Phase)
            {
                line.Add(Gap);
            }

            line.Add(new ChartPoint(steps[i].FromX, value(steps[i])));
            line.Add(new ChartPoint(steps[i].ToX, value(steps[i])));
        }

        return line.ToImmutable();
    }
}
