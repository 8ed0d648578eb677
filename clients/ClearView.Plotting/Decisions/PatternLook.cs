using System.Collections.Immutable;

using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>How a pattern is marked: a shape of its own, a short word beside the point, and words in the legend.</summary>
/// <param name="Pattern">The pattern.</param>
/// <param name="Mark">Its shape, no other pattern's.</param>
/// <param name="Word">What stands beside the first point of a cluster.</param>
/// <param name="Label">What the legend says.</param>
internal sealed record PatternLook(ControlPattern Pattern, MarkKind Mark, string Word, string Label)
{
    private const double SizePt = 9;
    private const double LeastSizePt = 5;
    private const int ManyMarks = 60;

    /// <summary>In the order in which marks of one point stand on one another, from beneath.</summary>
    public static readonly ImmutableArray<PatternLook> All =
    [
        new(ControlPattern.BeyondLimits, MarkKind.DiagonalCross, "beyond", "beyond a limit"),
        new(ControlPattern.EwmaBeyondLimits, MarkKind.FilledDiamond, "beyond", "moving average beyond its limit"),
        new(ControlPattern.SumAboveTarget, MarkKind.FilledTriangle, "shift up", "sum above exceeds its interval"),
        new(ControlPattern.SumBelowTarget, MarkKind.FilledTriangleDown, "shift down", "sum below exceeds its interval"),
        new(ControlPattern.RunOnOneSide, MarkKind.FilledSquare, "run", "run on one side"),
        new(ControlPattern.Trend, MarkKind.OpenTriangle, "trend", "trend"),
        new(ControlPattern.TwoOfThreeNearLimit, MarkKind.OpenDiamond, "2 of 3", "2 of 3 near a limit"),
        new(ControlPattern.FourOfFiveOffCentre, MarkKind.OpenSquare, "4 of 5", "4 of 5 off centre"),
        new(ControlPattern.Alternation, MarkKind.Star, "alternating", "up and down in turn"),
        new(ControlPattern.HuggingCentre, MarkKind.Cross, "hugging", "hugging the centre"),
        new(ControlPattern.AvoidingCentre, MarkKind.CrossedCircle, "avoiding", "avoiding the centre"),
        new(ControlPattern.SpreadBeyondLimits, MarkKind.OpenTriangleDown, "spread", "spread beyond its limit"),
    ];

    /// <summary>The look of so many marks: a crowd of them is drawn smaller.</summary>
    public SeriesLook Look(int count) => new(LineKind.None, Mark, Ink.Vermilion)
    {
        MarkSize = Math.Clamp(SizePt * Math.Sqrt((double)ManyMarks / Math.Max(count, 1)), LeastSizePt, SizePt),
    };
}
