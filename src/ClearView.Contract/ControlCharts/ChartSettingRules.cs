using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Contract.ControlCharts;

/// <summary>Rules for the settings of a chart: which patterns raise signals, and the figures of EWMA and CUSUM.</summary>
internal static class ChartSettingRules
{
    public static void Check(V1.ControlChart chart, string path, Violations violations)
    {
        if (chart.RunRules is { } rules)
        {
            CheckRules(rules, $"{path}.run_rules", violations);
        }

        if (chart.Ewma is { } ewma)
        {
            RequireKind(chart.Kind, V1.ControlChartKind.Ewma, $"{path}.ewma", violations);
            violations.RequirePositive($"{path}.ewma.weight", ewma.Weight, 1, "(a weight)");
            violations.RequirePositive($"{path}.ewma.limit_width", ewma.LimitWidth, 100, "standard deviations");
        }

        if (chart.Cusum is { } cusum)
        {
            RequireKind(chart.Kind, V1.ControlChartKind.Cusum, $"{path}.cusum", violations);
            violations.RequireWithin($"{path}.cusum.slack", cusum.Slack, 0, 100, "standard deviations");
            violations.RequirePositive($"{path}.cusum.decision_interval", cusum.DecisionInterval, 1000, "standard deviations");
            if (cusum.HasTarget && !double.IsFinite(cusum.Target))
            {
                violations.Add($"{path}.cusum.target", $"was {cusum.Target}; expected a finite number.");
            }
        }
    }

    private static void CheckRules(V1.RunRules rules, string path, Violations violations)
    {
        if (rules.Patterns.Count == 0)
        {
            violations.Add($"{path}.patterns", $"was empty; expected one or more of {string.Join(", ", ProtoEnumNames.Of<ControlPattern>())}.");
        }

        HashSet<ControlPattern> seen = [];
        for (int i = 0; i < rules.Patterns.Count; i++)
        {
            if (violations.RequireNamed($"{path}.patterns[{i}]", rules.Patterns[i]) && !seen.Add(rules.Patterns[i]))
            {
                violations.Add($"{path}.patterns[{i}]", $"was {ProtoEnumNames.NameOf(rules.Patterns[i])} once more; expected each pattern once.");
            }
        }

        CheckLength(rules.RunLengthCount, $"{path}.run_length_count", violations);
        CheckLength(rules.TrendLengthCount, $"{path}.trend_length_count", violations);
    }

    private static void CheckLength(uint length, string path, Violations violations)
    {
        if (length is not 0 and not (>= 5 and <= 15))
        {
            violations.Add(path, $"was {length}; expected 5 to 15 points, or 0 for 7.");
        }
    }

    // Settings of another chart are a mistake about which chart it is.
    private static void RequireKind(V1.ControlChartKind kind, V1.ControlChartKind expected, string path, Violations violations)
    {
        if (kind != expected)
        {
            violations.Add(path, $"was given with the kind {ProtoEnumNames.NameOf(kind)}; expected none, or the kind {ProtoEnumNames.NameOf(expected)}.");
        }
    }
}
