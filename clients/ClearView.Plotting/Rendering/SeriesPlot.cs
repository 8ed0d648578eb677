using ClearView.Plotting.Model;

using ScottPlot;

namespace ClearView.Plotting.Rendering;

/// <summary>From a series to what the drawing library draws: its lines without the gaps, then its marks.</summary>
internal static class SeriesPlot
{
    public static void Add(Plot plot, SeriesModel series)
    {
        foreach (RangeModel[] slices in Runs(series.Ribbon))
        {
            plot.PlottableList.Add(new RibbonPlot(slices, series.Look));
        }

        if (!series.Cells.IsEmpty)
        {
            plot.PlottableList.Add(new CellPlot(series.Cells));
        }

        if (!series.Bars.IsEmpty)
        {
            plot.PlottableList.Add(new BarPlot(series.Bars, series.Look));
        }

        if (!series.Whiskers.IsEmpty)
        {
            plot.PlottableList.Add(new WhiskerPlot(series.Whiskers, series.Look));
        }

        if (series.Look.Line != LineKind.None)
        {
            foreach (Coordinates[] run in Runs(series))
            {
                plot.PlottableList.Add(new PatternLine(run, series.Look));
            }
        }

        if (series.Look.Mark != MarkKind.None)
        {
            Coordinates[] marked = Marked(series);
            if (marked.Length > 0 && series.MarkRisePt != 0)
            {
                plot.PlottableList.Add(new RaisedMarks(marked, series.Look, (float)series.MarkRisePt));
            }
            else if (marked.Length > 0)
            {
                var marks = plot.Add.ScatterPoints(marked);
                marks.MarkerStyle = Styles.Marker(series.Look);
            }
        }
    }

    /// <summary>The stretches between gaps that have at least two points.</summary>
    internal static IEnumerable<Coordinates[]> Runs(SeriesModel series)
    {
        var run = new List<Coordinates>();
        foreach (ChartPoint point in series.Points)
        {
            if (double.IsFinite(point.X) && double.IsFinite(point.Y))
            {
                run.Add(new Coordinates(point.X, point.Y));
                continue;
            }

            if (run.Count > 1)
            {
                yield return [.. run];
            }

            run.Clear();
        }

        if (run.Count > 1)
        {
            yield return [.. run];
        }
    }

    /// <summary>The stretches of a band between gaps that have at least two slices.</summary>
    internal static IEnumerable<RangeModel[]> Runs(IReadOnlyList<RangeModel> ribbon)
    {
        int start = 0;
        for (int i = 0; i <= ribbon.Count; i++)
        {
            if (i < ribbon.Count && double.IsFinite(ribbon[i].Low) && double.IsFinite(ribbon[i].High))
            {
                continue;
            }

            if (i - start > 1)
            {
                yield return [.. ribbon.Skip(start).Take(i - start)];
            }

            start = i + 1;
        }
    }

    /// <summary>Where only some points are marked, the last is not: it often lies on the frame, which would cut its mark.</summary>
    private static bool IsMarked(SeriesModel series, int index) =>
        series.MarkOnly is { } only
            ? index == only
            : index >= series.MarkOffset
                && (index - series.MarkOffset) % series.MarkEvery == 0
                && (series.MarkEvery == 1 || index < series.Points.Length - 1);

    /// <summary>The points that carry a mark.</summary>
    internal static Coordinates[] Marked(SeriesModel series) =>
    [
        .. series.Points
            .Where((_, index) => IsMarked(series, index))
            .Where(point => double.IsFinite(point.X) && double.IsFinite(point.Y))
            .Select(point => new Coordinates(point.X, point.Y)),
    ];
}
