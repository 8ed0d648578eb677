using ClearView.Contract.Validation;
using ClearView.Quality.ControlCharts;
using ClearView.V1;

namespace ClearView.Contract.ControlCharts;

/// <summary>Rules for how readings are taken together.</summary>
internal static class SubgroupingRules
{
    public static void Check(V1.ControlChart chart, string path, bool stored, Violations violations)
    {
        if (chart.Subgrouping is not { } subgrouping)
        {
            if (IsAverages(chart.Kind))
            {
                violations.Add(path, $"was missing; expected consecutive_count or label, which averages are taken over.");
            }

            return;
        }

        if (chart.Kind == V1.ControlChartKind.Individuals)
        {
            violations.Add(path, $"was given; expected none, since each reading is a point of its own on a chart of individuals.");
            return;
        }

        switch (subgrouping.ByCase)
        {
            case V1.Subgrouping.ByOneofCase.ConsecutiveCount:
                int most = chart.Kind == V1.ControlChartKind.AveragesWithRange ? ChartFactors.LargestRangeSize : Quality.ControlCharts.Subgrouping.MostConsecutive;
                if (subgrouping.ConsecutiveCount < 2 || subgrouping.ConsecutiveCount > most)
                {
                    string instead = most == ChartFactors.LargestRangeSize ? "; larger ones go with the standard deviation" : "";
                    violations.Add($"{path}.consecutive_count", $"was {subgrouping.ConsecutiveCount}; expected 2 to {most} readings{instead}.");
                }

                break;
            case V1.Subgrouping.ByOneofCase.Label:
                if (violations.RequireNamed($"{path}.label", subgrouping.Label) && stored && subgrouping.Label == SubgroupLabel.Given)
                {
                    violations.Add($"{path}.label", $"was SUBGROUP_LABEL_GIVEN, which stored readings do not have; expected the roll or the lot.");
                }

                break;
            default:
                violations.Add(path, $"was empty; expected consecutive_count or label.");
                break;
        }
    }

    public static bool IsAverages(V1.ControlChartKind kind) =>
        kind is V1.ControlChartKind.AveragesWithRange or V1.ControlChartKind.AveragesWithStandardDeviation;
}
