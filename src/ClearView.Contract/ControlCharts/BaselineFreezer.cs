using ClearView.Contract.Validation;
using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.ControlCharts;

/// <summary>Takes the limits of a phase from the readings of its baseline, once, and says what is doubtful about them.</summary>
public static class BaselineFreezer
{
    // Common practice, no source.
    private const int FewPoints = 20;

    /// <summary>Takes the limits of a phase.</summary>
    /// <param name="chart">A chart that was checked.</param>
    /// <param name="phase">Place of the phase, which has a baseline.</param>
    /// <param name="readings">The readings of the baseline, with the parts that the chart needs.</param>
    /// <param name="path">Path of the chart, for violations.</param>
    /// <param name="violations">Takes the reason where the baseline gives no limits.</param>
    /// <returns>The limits; <see langword="null"/> where there are none.</returns>
    public static FrozenLimits? Freeze(V1.ControlChart chart, int phase, SeriesColumns readings, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(readings);
        ArgumentNullException.ThrowIfNull(violations);
        Quality.ControlCharts.Subgrouping subgrouping = ControlChartReader.ReadSubgrouping(chart.Subgrouping);
        List<string> remarks = [];
        ControlBaseline baseline = subgrouping.IsNone
            ? ControlBaseline.OfIndividuals(readings.Values)
            : ControlBaseline.OfSubgroups(ControlChartReader.BasisOf(chart), Subgroups(subgrouping, readings, remarks));
        if (!baseline.HasLimits)
        {
            violations.Add($"{path}.phases[{phase}].baseline", $"gives no limits: {baseline.Refusal}.");
            return null;
        }

        ControlLimits limits = baseline.Limits;
        AddRemarks(chart, limits, readings, subgrouping, remarks);
        return new FrozenLimits
        {
            Centre = limits.Centre,
            StandardDeviation = limits.StandardDeviation,
            SubgroupCount = (uint)limits.SubgroupSize,
            Estimate = limits.Estimate,
            BaselineCount = (uint)limits.BaselineCount,
            Baseline = Closed(chart.Phases[phase].Baseline, readings),
            Remarks = { remarks },
        };
    }

    /// <summary>The chart with limits in place of its baselines.</summary>
    /// <param name="chart">The chart; it is not changed.</param>
    /// <param name="limits">The limits of each phase; <see langword="null"/> leaves those that it has.</param>
    public static V1.ControlChart WithLimits(V1.ControlChart chart, IReadOnlyList<FrozenLimits?> limits)
    {
        ArgumentNullException.ThrowIfNull(chart);
        ArgumentNullException.ThrowIfNull(limits);
        V1.ControlChart frozen = chart.Clone();
        for (int i = 0; i < frozen.Phases.Count; i++)
        {
            if (limits[i] is { } taken)
            {
                frozen.Phases[i].Limits = taken;
            }
        }

        return frozen;
    }

    private static Subgroup[] Subgroups(Quality.ControlCharts.Subgrouping subgrouping, SeriesColumns readings, List<string> remarks)
    {
        SubgroupFormer former = new(subgrouping);
        List<Subgroup> subgroups = [];
        int single = 0;
        for (int i = 0; i < readings.Count; i++)
        {
            if (!former.Add(SeriesRows.At(readings, i), out FormedSubgroup formed))
            {
                continue;
            }

            // One reading tells nothing of the spread within.
            if (formed.Subgroup.Size == 1)
            {
                single++;
            }
            else
            {
                subgroups.Add(formed.Subgroup);
            }
        }

        Remark(remarks, single, FormattableString.Invariant($"{Count(single, "subgroup")} of a single reading left out"));
        return [.. subgroups];
    }

    private static void AddRemarks(
        V1.ControlChart chart, ControlLimits limits, SeriesColumns readings, Quality.ControlCharts.Subgrouping subgrouping, List<string> remarks)
    {
        string what = subgrouping.IsNone ? "reading" : "subgroup";
        if (limits.BaselineCount < FewPoints)
        {
            remarks.Add(FormattableString.Invariant($"the baseline has only {Count(limits.BaselineCount, what)}: the limits are uncertain, {FewPoints} or more are usual"));
        }

        Quality.ControlCharts.RunRules rules = ControlChartReader.ReadRules(chart.RunRules);
        ChartFeed feed = new(new ChartDefinition(
            [new Quality.ControlCharts.ControlPhase("baseline", DateTimeOffset.MinValue, limits)],
            rules with { Patterns = rules.Patterns | ControlSignals.BeyondLimits },
            subgrouping));
        int beyond = 0;
        int spread = 0;
        int other = 0;
        for (int i = 0; i < readings.Count; i++)
        {
            if (feed.Add(SeriesRows.At(readings, i), out FedPoint point))
            {
                ControlSignals signals = point.Point.Signals;
                beyond += (signals & ControlSignals.BeyondLimits) != 0 ? 1 : 0;
                spread += (signals & ControlSignals.SpreadBeyondLimits) != 0 ? 1 : 0;
                other += (signals & ~(ControlSignals.BeyondLimits | ControlSignals.SpreadBeyondLimits)) != 0 ? 1 : 0;
            }
        }

        Remark(remarks, beyond, FormattableString.Invariant($"{Count(beyond, "point")} of the baseline beyond the limits taken from it"));
        Remark(remarks, spread, FormattableString.Invariant($"{Count(spread, "point")} of the baseline with a spread beyond its limit"));
        Remark(remarks, other, FormattableString.Invariant($"{Count(other, "point")} of the baseline in a run or another pattern"));
        if (AutocorrelationCheck.Of(readings.Values)?.CautionOn(LimitWords.Of(subgrouping.IsNone)) is { } caution)
        {
            remarks.Add(caution);
        }
    }

    // An end that was left open is closed at what was there, so that the limits say what they were taken from.
    private static MeasuredSpan Closed(MeasuredSpan asked, SeriesColumns readings) => new()
    {
        MeasuredFrom = asked.MeasuredFrom ?? TimeOf(readings.MeasuredAtTicks[0]),
        MeasuredBefore = asked.MeasuredBefore ?? TimeOf(readings.MeasuredAtTicks[^1] + 1),
    };

    private static Timestamp TimeOf(long ticks) => new DateTimeOffset(ticks, TimeSpan.Zero).ToTimestamp();

    private static void Remark(List<string> remarks, int count, string words)
    {
        if (count > 0)
        {
            remarks.Add(words);
        }
    }

    private static string Count(int count, string what) => FormattableString.Invariant($"{count} {what}{(count == 1 ? "" : "s")}");
}
