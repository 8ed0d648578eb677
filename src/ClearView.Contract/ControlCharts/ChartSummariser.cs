using System.Numerics;

using ClearView.Optics.Evaluations;
using ClearView.Quality.ControlCharts;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.ControlCharts;

/// <summary>Sums up what a chart shows.</summary>
internal static class ChartSummariser
{
    // The patterns are numbered 1 to 12.
    private const int PatternNumbers = 13;

    public static ControlChartSummary Summarise(DrawnSeries drawn, Measurand measurand, int mostPoints)
    {
        (int start, int length) = drawn.Shown.GetOffsetAndLength(drawn.Series.Count);
        ControlChartSummary summary = new()
        {
            Name = measurand.Name,
            Unit = measurand.Unit,
            ReadingCount = (ulong)length,
        };
        AddPoints(summary, drawn.Read());
        summary.Thinned = summary.PointCount > (ulong)mostPoints;
        AddLate(summary, drawn, start, length);
        if (AutocorrelationCheck.Of(WithoutPhases(drawn, start, length)) is { } check)
        {
            summary.Autocorrelation = check.FirstLag;
            summary.AutocorrelationCaution = check.CautionOn(LimitWords.Of(drawn.Definition.Subgrouping.IsNone)) ?? "";
        }

        return summary;
    }

    private static void AddPoints(ControlChartSummary summary, DrawnSeries.Reader reader)
    {
        ulong points = 0;
        ulong signalling = 0;
        Span<ulong> counts = stackalloc ulong[PatternNumbers];
        counts.Clear();
        while (reader.Next(out FedPoint point))
        {
            points++;
            signalling += point.Point.Signals == ControlSignals.None ? 0ul : 1;
            for (int rest = (int)point.Point.Signals; rest != 0; rest &= rest - 1)
            {
                counts[BitOperations.TrailingZeroCount(rest) + 1]++;
            }
        }

        summary.PointCount = points;
        summary.SignalPointCount = signalling;
        summary.UnplottedReadingCount = (ulong)reader.WithoutPoint;
        for (int i = 1; i < counts.Length; i++)
        {
            if (counts[i] > 0)
            {
                summary.Patterns.Add(new PatternCount { Pattern = (ControlPattern)i, PointCount = counts[i] });
            }
        }
    }

    private static void AddLate(ControlChartSummary summary, DrawnSeries drawn, int start, int length)
    {
        for (int i = start; i < start + length; i++)
        {
            if (drawn.Late.IsLate(i))
            {
                summary.LateReadingCount++;
                summary.RevisedFrom ??= new DateTimeOffset(drawn.Series.MeasuredAtTicks[i], TimeSpan.Zero).ToTimestamp();
            }
        }
    }

    // A step from one phase to the next is no dependence of readings on each other: each phase is taken from its own mean.
    private static ReadOnlySpan<double> WithoutPhases(DrawnSeries drawn, int start, int length)
    {
        ReadOnlySpan<double> values = drawn.Series.Values.Slice(start, length);
        ReadOnlySpan<long> times = drawn.Series.MeasuredAtTicks.Slice(start, length);
        if (drawn.Definition.Phases.Length == 1 || values.IsEmpty)
        {
            return values;
        }

        double[] deviations = values.ToArray();
        for (int phase = 0; phase < drawn.Definition.Phases.Length; phase++)
        {
            TickSpan span = new(
                phase == 0 ? long.MinValue : drawn.Definition.Phases[phase].From.UtcTicks,
                phase + 1 == drawn.Definition.Phases.Length ? long.MaxValue : drawn.Definition.Phases[phase + 1].From.UtcTicks);
            Span<double> own = deviations.AsSpan()[span.PlacesIn(times)];
            double first = own.IsEmpty ? 0 : own[0];
            double sum = 0;
            foreach (double value in own)
            {
                sum += value - first;
            }

            double mean = first + (sum / Math.Max(own.Length, 1));
            foreach (ref double value in own)
            {
                value -= mean;
            }
        }

        return deviations;
    }
}
