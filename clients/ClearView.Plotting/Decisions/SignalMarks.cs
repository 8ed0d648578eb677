using System.Collections.Immutable;

using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>Marks and words of the patterns that points of a control chart raise.</summary>
internal static class SignalMarks
{
    private const double StackPt = 10;
    private const int MostWords = 3;
    private const int MarksAcross = 90;
    private const double ClusterShare = 0.05;
    private const ulong ClusterCount = 3;

    /// <summary>The marks: a series for each pattern, those of one point on one another.</summary>
    /// <param name="trace">The chart.</param>
    /// <param name="shown">Which patterns the panel shows.</param>
    /// <param name="place">Where a point that raises a pattern lies.</param>
    public static IEnumerable<SeriesModel> Series(
        ProcessTrace trace, Func<ControlPattern, bool> shown, Func<ControlChartPoint, ControlPattern, ChartPoint> place)
    {
        foreach (PatternLook look in PatternLook.All.Where(look => shown(look.Pattern)))
        {
            (ControlChartPoint Point, int Rank)[] raised =
                [.. Marked(trace, look.Pattern).Select(point => (point, Rank(point, look.Pattern, shown)))];
            foreach ((IGrouping<int, (ControlChartPoint Point, int Rank)> rank, int turn) in raised.GroupBy(one => one.Rank).OrderBy(group => group.Key).Select((group, i) => (group, i)))
            {
                yield return new SeriesModel
                {
                    Label = $"{look.Label}: {Count(trace, look.Pattern)}",
                    Look = look.Look(raised.Length),
                    Points = [.. rank.Select(one => place(one.Point, look.Pattern))],
                    MarkRisePt = StackPt * rank.Key,
                    InLegend = turn == 0,
                };
            }
        }
    }

    /// <summary>A word beside the first point of each cluster of one pattern.</summary>
    public static ImmutableArray<AnnotationModel> Words(
        ProcessTrace trace, Func<ControlPattern, bool> shown, Func<ControlChartPoint, ControlPattern, ChartPoint> place)
    {
        double near = ClusterShare * (trace.Axis.Maximum - trace.Axis.Minimum);
        var firsts = new List<(ControlChartPoint Point, PatternLook Look)>();
        foreach (PatternLook look in PatternLook.All.Where(look => shown(look.Pattern)))
        {
            ControlChartPoint? before = null;
            foreach (ControlChartPoint point in trace.Points.Where(point => point.Patterns.Contains(look.Pattern)))
            {
                bool follows = before is not null
                    && (point.PositionCount - before.PositionCount <= ClusterCount || trace.X(point) - trace.X(before) <= near);
                if (!follows)
                {
                    firsts.Add((point, look));
                }

                before = point;
            }
        }

        return
        [
            .. firsts.GroupBy(first => first.Point.PositionCount).OrderBy(group => group.Key).Select(group =>
            {
                ChartPoint at = place(group.First().Point, group.First().Look.Pattern);
                return new AnnotationModel(at.X, at.Y, Join([.. group.Select(first => first.Look.Word).Distinct()]), AnnotationAnchor.Above) { Loose = true };
            }),
        ];
    }

    /// <summary>The points that are marked: all, but on a thinned chart the outermost of those that would cover one another.</summary>
    private static IEnumerable<ControlChartPoint> Marked(ProcessTrace trace, ControlPattern pattern)
    {
        IEnumerable<ControlChartPoint> raised = trace.Points.Where(point => point.Patterns.Contains(pattern));
        double width = (trace.Axis.Maximum - trace.Axis.Minimum) / MarksAcross;
        return trace.Thinned
            ? raised.GroupBy(point => (Math.Floor(trace.X(point) / width), point.Plotted > point.Centre)).Select(group => group.MaxBy(point => Math.Abs(point.Plotted - point.Centre))!)
            : raised;
    }

    private static string Join(string[] words) => words.Length <= MostWords
        ? string.Join(", ", words)
        : $"{string.Join(", ", words.Take(MostWords - 1))} and {words.Length - MostWords + 1} more";

    private static int Rank(ControlChartPoint point, ControlPattern pattern, Func<ControlPattern, bool> shown) =>
        PatternLook.All.Select(look => look.Pattern).Where(one => shown(one) && point.Patterns.Contains(one)).TakeWhile(one => one != pattern).Count();

    private static ulong Count(ProcessTrace trace, ControlPattern pattern) =>
        trace.Summary.Patterns.FirstOrDefault(count => count.Pattern == pattern)?.PointCount
        ?? (ulong)trace.Points.Count(point => point.Patterns.Contains(pattern));
}
