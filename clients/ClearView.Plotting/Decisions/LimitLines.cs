using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>Specification limits and target as lines and as names at an edge.</summary>
internal static class LimitLines
{
    private static readonly SeriesLook LimitLook = new(LineKind.Dashed, MarkKind.None, Ink.Vermilion) { LineWidth = 1.8 };
    private static readonly SeriesLook TargetLook = new(LineKind.DashDotted, MarkKind.None, Ink.Green) { LineWidth = 1.4 };

    /// <summary>Limits and target that are set, with their words.</summary>
    public static ImmutableArray<(double Value, string Name, SeriesLook Look)> Of(SeriesLimits? limits, string unit)
    {
        string suffix = Wording.Suffix(unit);
        var lines = ImmutableArray.CreateBuilder<(double Value, string Name, SeriesLook Look)>();
        if (limits?.HasLower == true)
        {
            lines.Add((limits.Lower, $"lower limit {Wording.Number(limits.Lower)}{suffix}", LimitLook));
        }

        if (limits?.HasTarget == true)
        {
            lines.Add((limits.Target, $"target {Wording.Number(limits.Target)}{suffix}", TargetLook));
        }

        if (limits?.HasUpper == true)
        {
            lines.Add((limits.Upper, $"upper limit {Wording.Number(limits.Upper)}{suffix}", LimitLook));
        }

        return lines.ToImmutable();
    }

    public static ImmutableArray<ReferenceLineModel> Lines(SeriesLimits? limits, LineOrientation orientation) =>
        [.. Of(limits, "").Select(line => new ReferenceLineModel(orientation, line.Value, "", line.Look))];

    public static ImmutableArray<AxisTick> Names(SeriesLimits? limits, string unit) =>
        [.. Of(limits, unit).Select(line => new AxisTick(line.Value, line.Name))];
}
