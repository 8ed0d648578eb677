using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;
using ClearView.V1;

namespace ClearView.Contract.ControlCharts;

/// <summary>Draws a chart over a series, part by part.</summary>
/// <remarks>
/// Goes through the readings twice, once for the summary and once for the points, and keeps no point but those of the part at
/// hand: the time is proportional to the number of readings.
/// </remarks>
public static class ControlChartDrawer
{
    /// <summary>Most points, or stretches, of one part.</summary>
    public const int MostInAPart = 500;

    private const int Stretches = 1000;
    private const int MostSignalPoints = 1000;

    /// <summary>Draws a chart.</summary>
    /// <param name="chart">The chart, checked, with frozen limits in every phase.</param>
    /// <param name="series">
    /// The readings in order, with the parts that the chart needs: all, or all from the beginning of the phase that holds where the
    /// stretch begins, and also those after the stretch, from which late readings are told.
    /// </param>
    /// <param name="span">The stretch to show, checked; <see langword="null"/> shows all.</param>
    /// <param name="mostPoints">Most points that are sent one by one; of a longer chart stretches are.</param>
    /// <returns>The parts: first the chart and the summary, then points or stretches.</returns>
    public static IEnumerable<DrawnControlChart> Draw(NamedControlChart chart, SeriesColumns series, MeasuredSpan? span, int mostPoints)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(series);
        DrawnSeries drawn = new(ControlChartReader.Read(chart.ControlChart), series, TickSpan.Of(span));
        Optics.Evaluations.Measurand measurand = Optics.Evaluations.Measurand.TryFind(chart.ControlChart.Series.Measurand, out Optics.Evaluations.Measurand? found)
            ? found
            : throw new ArgumentException("The chart names no measurand.", nameof(chart));
        ControlChartSummary summary = ChartSummariser.Summarise(drawn, measurand, mostPoints);
        DrawnControlChart first = new() { ControlChart = chart, Summary = summary };
        return (summary.Thinned ? Thinned(drawn, (long)summary.PointCount) : Points(drawn)).Prepend(first);
    }

    private static IEnumerable<DrawnControlChart> Points(DrawnSeries drawn)
    {
        DrawnSeries.Reader reader = drawn.Read();
        DrawnControlChart part = new();
        long position = 0;
        while (reader.Next(out FedPoint point))
        {
            part.Points.Add(ControlPointWriter.Write(point, position++, drawn));
            if (part.Points.Count == MostInAPart)
            {
                yield return part;
                part = new DrawnControlChart();
            }
        }

        if (part.Points.Count > 0)
        {
            yield return part;
        }
    }

    private static IEnumerable<DrawnControlChart> Thinned(DrawnSeries drawn, long points)
    {
        DrawnSeries.Reader reader = drawn.Read();
        StretchBuilder builder = new(drawn, (points + Stretches - 1) / Stretches);
        DrawnControlChart part = new();
        long position = 0;
        int signalling = 0;
        while (reader.Next(out FedPoint point))
        {
            if (builder.Add(point) is { } stretch)
            {
                part.Stretches.Add(stretch);
            }

            if (point.Point.Signals != ControlSignals.None && signalling < MostSignalPoints)
            {
                signalling++;
                part.Points.Add(ControlPointWriter.Write(point, position, drawn));
            }

            position++;
            if (part.Points.Count == MostInAPart || part.Stretches.Count == MostInAPart)
            {
                yield return part;
                part = new DrawnControlChart();
            }
        }

        if (builder.Finish() is { } last)
        {
            part.Stretches.Add(last);
        }

        if (part.Points.Count + part.Stretches.Count > 0)
        {
            yield return part;
        }
    }
}
