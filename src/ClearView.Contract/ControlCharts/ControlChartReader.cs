using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.ControlCharts;

/// <summary>Reads charts that were checked.</summary>
public static class ControlChartReader
{
    /// <summary>The chart with the limits of its phases.</summary>
    /// <param name="chart">A chart that was checked, with frozen limits in every phase.</param>
    public static ChartDefinition Read(V1.ControlChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        return new ChartDefinition(
            [.. chart.Phases.Select((phase, i) => new ControlPhase(
                phase.Name, i == 0 ? DateTimeOffset.MinValue : phase.MeasuredFrom.ToDateTimeOffset(), ReadLimits(chart, phase.Limits)))],
            ReadRules(chart.RunRules),
            ReadSubgrouping(chart.Subgrouping));
    }

    /// <summary>What a chart needs of a series.</summary>
    /// <param name="chart">A chart that was checked.</param>
    public static SeriesParts PartsOf(V1.ControlChart chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        SeriesParts labels = chart.Subgrouping?.ByCase == V1.Subgrouping.ByOneofCase.Label ? SeriesParts.Labels : SeriesParts.None;
        return SeriesParts.Times | SeriesParts.RecordedOrder | labels;
    }

    /// <summary>Where the phase begins that holds at the beginning of a stretch: what is before it has no influence on the stretch.</summary>
    /// <param name="chart">A chart that was checked.</param>
    /// <param name="span">The stretch, checked; <see langword="null"/> stands for all time.</param>
    /// <returns><see langword="null"/> where it is the beginning of the series.</returns>
    public static Timestamp? BeginningFor(V1.ControlChart chart, V1.MeasuredSpan? span)
    {
        ArgumentNullException.ThrowIfNull(chart);
        long from = TickSpan.Of(span).From;
        return chart.Phases.Skip(1).LastOrDefault(phase => phase.MeasuredFrom.ToDateTimeOffset().UtcTicks <= from)?.MeasuredFrom;
    }

    internal static Subgrouping ReadSubgrouping(V1.Subgrouping? subgrouping) => subgrouping?.ByCase switch
    {
        V1.Subgrouping.ByOneofCase.ConsecutiveCount => Subgrouping.Consecutive((int)subgrouping.ConsecutiveCount),
        V1.Subgrouping.ByOneofCase.Label => Subgrouping.ByLabel,
        _ => Subgrouping.None,
    };

    internal static RunRules ReadRules(V1.RunRules? rules) => rules is null
        ? RunRules.Iso7870Part2
        : new RunRules
        {
            Patterns = rules.Patterns.Aggregate(ControlSignals.None, (all, pattern) => all | ControlPatterns.SignalOf(pattern)),
            RunLength = rules.RunLengthCount == 0 ? RunRules.Iso7870Part2.RunLength : (int)rules.RunLengthCount,
            TrendLength = rules.TrendLengthCount == 0 ? RunRules.Iso7870Part2.TrendLength : (int)rules.TrendLengthCount,
        };

    /// <summary>The chart that limits are taken for before EWMA or CUSUM settings go on: single readings, or averages.</summary>
    internal static ControlChartKind BasisOf(V1.ControlChart chart) => chart.Kind switch
    {
        V1.ControlChartKind.AveragesWithRange => ControlChartKind.AveragesWithRange,
        _ when chart.Subgrouping is null => ControlChartKind.Individuals,
        _ => ControlChartKind.AveragesWithStandardDeviation,
    };

    /// <summary>Limits with the settings of the chart.</summary>
    internal static ControlLimits WithSettings(V1.ControlChart chart, ControlLimits limits) => chart.Kind switch
    {
        V1.ControlChartKind.Ewma => limits.WithEwma(
            chart.Ewma is { } ewma ? new EwmaSettings(ewma.Weight, ewma.LimitWidth) : EwmaSettings.Usual),
        V1.ControlChartKind.Cusum => limits.WithCusum(
            chart.Cusum is { } cusum ? new CusumSettings(cusum.Slack, cusum.DecisionInterval) : CusumSettings.Usual,
            chart.Cusum is { HasTarget: true } ? chart.Cusum.Target : null),
        _ => limits,
    };

    private static ControlLimits ReadLimits(V1.ControlChart chart, V1.FrozenLimits frozen)
    {
        // Only words: limits follow the size of each subgroup. By label there may be none that is usual.
        int size = chart.Subgrouping?.ByCase switch
        {
            V1.Subgrouping.ByOneofCase.ConsecutiveCount => (int)chart.Subgrouping.ConsecutiveCount,
            V1.Subgrouping.ByOneofCase.Label => Math.Clamp(
                (int)frozen.SubgroupCount, 2, chart.Kind == V1.ControlChartKind.AveragesWithRange ? ChartFactors.LargestRangeSize : int.MaxValue),
            _ => 1,
        };
        ControlLimits limits = ControlLimits.Given(BasisOf(chart), frozen.Centre, frozen.StandardDeviation, size) with
        {
            BaselineCount = (int)frozen.BaselineCount,
        };
        return WithSettings(chart, frozen.Estimate.Length > 0 ? limits with { Estimate = frozen.Estimate } : limits);
    }
}
