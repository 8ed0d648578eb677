using ClearView.Contract.Series;
using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Contract.ControlCharts;

/// <summary>Rules for the phases of a chart and the limits in them.</summary>
internal static class ControlPhaseRules
{
    private const int MostPhases = 100;
    private const int LongestRemark = 500;
    private const int MostRemarks = 20;

    public static void Check(V1.ControlChart chart, string path, Violations violations)
    {
        if (chart.Phases.Count is 0 or > MostPhases)
        {
            violations.Add(path, $"had {chart.Phases.Count} phases; expected 1 to {MostPhases}.");
            return;
        }

        long before = long.MinValue;
        for (int i = 0; i < chart.Phases.Count; i++)
        {
            V1.ControlPhase phase = chart.Phases[i];
            string at = $"{path}[{i}]";
            violations.RequireText($"{at}.name", phase.Name);
            if (phase.MeasuredFrom is { } measuredFrom)
            {
                long? from = TimestampRules.ReadTicks(measuredFrom, $"{at}.measured_from", violations);
                if (from <= before)
                {
                    violations.Add($"{at}.measured_from", $"was {new DateTime(from.Value):yyyy-MM-ddTHH:mm:ss.fffffff}Z; expected later than the phase before.");
                }

                before = from ?? before;
            }
            else if (i > 0)
            {
                violations.Add($"{at}.measured_from", $"was missing; expected the time from which the phase holds.");
            }

            CheckChoice(chart, phase, at, violations);
        }
    }

    private static void CheckChoice(V1.ControlChart chart, V1.ControlPhase phase, string path, Violations violations)
    {
        switch (phase.LimitsChoiceCase)
        {
            case V1.ControlPhase.LimitsChoiceOneofCase.Baseline:
                MeasuredSpanRules.Check(phase.Baseline, $"{path}.baseline", violations);
                break;
            case V1.ControlPhase.LimitsChoiceOneofCase.Limits:
                CheckLimits(chart, phase.Limits, $"{path}.limits", violations);
                break;
            default:
                violations.Add(path, $"had no limits; expected baseline or limits.");
                break;
        }
    }

    private static void CheckLimits(V1.ControlChart chart, FrozenLimits limits, string path, Violations violations)
    {
        if (!double.IsFinite(limits.Centre))
        {
            violations.Add($"{path}.centre", $"was {limits.Centre}; expected a finite number.");
        }

        if (!(limits.StandardDeviation is > 0 and < double.PositiveInfinity))
        {
            violations.Add($"{path}.standard_deviation", $"was {limits.StandardDeviation}; expected above 0.");
        }

        CheckSize(chart, limits.SubgroupCount, $"{path}.subgroup_count", violations);
        violations.CheckText($"{path}.estimate", limits.Estimate);
        if (limits.BaselineCount > int.MaxValue)
        {
            violations.Add($"{path}.baseline_count", $"was {limits.BaselineCount}; expected up to {int.MaxValue} points.");
        }

        MeasuredSpanRules.Check(limits.Baseline, $"{path}.baseline", violations);
        if (limits.Remarks.Count > MostRemarks)
        {
            violations.Add($"{path}.remarks", $"had {limits.Remarks.Count} entries; expected up to {MostRemarks}.");
        }

        for (int i = 0; i < limits.Remarks.Count; i++)
        {
            violations.CheckText($"{path}.remarks[{i}]", limits.Remarks[i], LongestRemark);
        }
    }

    private static void CheckSize(V1.ControlChart chart, uint size, string path, Violations violations)
    {
        switch (chart.Subgrouping?.ByCase)
        {
            case null when size > 1:
                violations.Add(path, $"was {size}; expected 1 without subgroups, or 0.");
                break;
            case V1.Subgrouping.ByOneofCase.ConsecutiveCount when size != 0 && size != chart.Subgrouping.ConsecutiveCount:
                violations.Add(path, $"was {size}; expected that of the subgrouping, {chart.Subgrouping.ConsecutiveCount}, or 0.");
                break;
            case V1.Subgrouping.ByOneofCase.Label when size > int.MaxValue:
                violations.Add(path, $"was {size}; expected up to {int.MaxValue} readings.");
                break;
        }
    }
}
