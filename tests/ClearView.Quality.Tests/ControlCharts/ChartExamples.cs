using System.Collections.Immutable;

using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;

namespace ClearView.Quality.Tests.ControlCharts;

/// <summary>Seeded series and charts of every kind, for properties.</summary>
internal static class ChartExamples
{
    public static readonly DateTimeOffset Start = new(2024, 3, 1, 6, 0, 0, TimeSpan.Zero);

    /// <summary>Readings a minute apart, some at the same time, in rolls of 1 to 9, a few without a roll; recorded in the order of measurement.</summary>
    public static SeriesReading[] Series(int seed, int count)
    {
        Random random = new(seed);
        double[] values = Draws.Normal(seed, count, 0.2);
        SeriesReading[] series = new SeriesReading[count];
        long ticks = Start.UtcTicks;
        int roll = 0;
        int left = 0;
        for (int i = 0; i < count; i++)
        {
            ticks += random.Next(8) == 0 ? 0 : TimeSpan.TicksPerMinute;
            if (left-- == 0)
            {
                roll++;
                left = random.Next(9);
            }

            series[i] = new SeriesReading(ticks, i, values[i], random.Next(20) == 0 ? "" : $"R{roll}", double.NaN, double.NaN);
        }

        return series;
    }

    /// <summary>Charts of every kind with every subgrouping that goes with it, each in three phases.</summary>
    public static IEnumerable<ChartDefinition> Charts(SeriesReading[] series)
    {
        ControlLimits single = ControlLimits.Given(ControlChartKind.Individuals, 0, 1);
        ControlLimits range = ControlLimits.Given(ControlChartKind.AveragesWithRange, 0, 1, 5);
        ControlLimits deviation = ControlLimits.Given(ControlChartKind.AveragesWithStandardDeviation, 0, 1, 5);
        foreach (Subgrouping subgrouping in new[] { Subgrouping.None, Subgrouping.Consecutive(5), Subgrouping.ByLabel })
        {
            ControlLimits[] kinds = subgrouping.IsNone
                ? [single, single.WithEwma(EwmaSettings.Usual), single.WithCusum(CusumSettings.Usual, 0.1)]
                : [range, deviation, deviation.WithEwma(EwmaSettings.Usual), deviation.WithCusum(CusumSettings.Usual)];
            foreach (ControlLimits limits in kinds)
            {
                yield return new ChartDefinition(Phases(series, limits), RunRules.All, subgrouping);
            }
        }
    }

    /// <summary>Signals by the reading that completed the point, all fed from the start.</summary>
    public static List<ControlSignals> Raised(ChartDefinition chart, IEnumerable<SeriesReading> series)
    {
        ChartFeed feed = new(chart);
        List<ControlSignals> raised = [];
        foreach (SeriesReading reading in series)
        {
            raised.Add(feed.Add(reading, out FedPoint point) ? point.Point.Signals : ControlSignals.None);
        }

        return raised;
    }

    private static ImmutableArray<ControlPhase> Phases(SeriesReading[] series, ControlLimits limits) =>
    [
        new("first", DateTimeOffset.MinValue, limits),
        new("second", series[series.Length / 3].MeasuredAt, limits),
        new("third", series[series.Length / 2].MeasuredAt.AddSeconds(1), limits),
    ];
}
