using ClearView.Optics.Evaluations;
using ClearView.V1;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>Says what a control chart is, in words.</summary>
internal static class ControlChartText
{
    /// <summary>The kind of chart.</summary>
    public static string Kind(ControlChartKind kind) => kind switch
    {
        ControlChartKind.Individuals => "individuals with moving range",
        ControlChartKind.AveragesWithRange => "averages with range",
        ControlChartKind.AveragesWithStandardDeviation => "averages with standard deviation",
        ControlChartKind.Ewma => "exponentially weighted moving average (EWMA)",
        ControlChartKind.Cusum => "cumulative sums (CUSUM)",
        _ => "not stated",
    };

    /// <summary>Kind, subgroups and settings.</summary>
    public static string Kind(ControlChart chart)
    {
        var settings = chart switch
        {
            { Kind: ControlChartKind.Ewma, Ewma: { } ewma } => $", λ = {NumberText.Plain(ewma.Weight)}, L = {NumberText.Plain(ewma.LimitWidth)}",
            { Kind: ControlChartKind.Cusum, Cusum: { } cusum } =>
                $", k = {NumberText.Plain(cusum.Slack)}, h = {NumberText.Plain(cusum.DecisionInterval)}{(cusum.HasTarget ? $", target {NumberText.Plain(cusum.Target)}" : "")}",
            _ => "",
        };
        return $"{Kind(chart.Kind)}{settings}{Subgroups(chart.Subgrouping)}";
    }

    /// <summary>The series that is watched.</summary>
    public static string Series(SeriesFilter series)
    {
        var parts = new (string Label, string Text)[]
        {
            ("line", series.Line), ("product", series.Product), ("lot", series.Lot), ("roll", series.Roll), ("instrument", series.Instrument),
        };
        return string.Join(", ", parts.Where(part => part.Text.Length > 0).Select(part => $"{part.Label} {part.Text}").Prepend(
            Measurand.TryFind(series.Measurand, out var measurand) && measurand.Unit.Length > 0 ? $"{series.Measurand} ({measurand.Unit})" : series.Measurand));
    }

    /// <summary>A pattern in the words of the field.</summary>
    public static string Pattern(ControlPattern pattern) => pattern switch
    {
        ControlPattern.BeyondLimits => "beyond a control limit",
        ControlPattern.RunOnOneSide => "run on one side of the centre line",
        ControlPattern.Trend => "trend",
        ControlPattern.Alternation => "14 points up and down in turn",
        ControlPattern.TwoOfThreeNearLimit => "2 of 3 points near one limit",
        ControlPattern.FourOfFiveOffCentre => "4 of 5 points off the centre on one side",
        ControlPattern.HuggingCentre => "15 points hugging the centre line",
        ControlPattern.AvoidingCentre => "8 points avoiding the centre line",
        ControlPattern.SpreadBeyondLimits => "spread beyond its limit",
        ControlPattern.EwmaBeyondLimits => "moving average beyond its limit",
        ControlPattern.SumAboveTarget => "sum above the target beyond the decision interval",
        ControlPattern.SumBelowTarget => "sum below the target beyond the decision interval",
        _ => "unknown pattern",
    };

    /// <summary>Which patterns raise a signal.</summary>
    public static string Rules(ControlChart chart) => chart.RunRules is not { } rules
        ? chart.Kind switch
        {
            ControlChartKind.Ewma => "moving average beyond its limit (ISO 7870-6)",
            ControlChartKind.Cusum => "sum beyond the decision interval (ISO 7870-4)",
            _ => "beyond a control limit; run of 7; trend of 7; spread beyond its limit (ISO 7870-2)",
        }
        : string.Join("; ", rules.Patterns.Select(pattern => pattern switch
        {
            ControlPattern.RunOnOneSide => $"run of {NumberText.Plain(rules.RunLengthCount == 0 ? 7 : rules.RunLengthCount)} on one side of the centre line",
            ControlPattern.Trend => $"trend of {NumberText.Plain(rules.TrendLengthCount == 0 ? 7 : rules.TrendLengthCount)}",
            _ => Pattern(pattern),
        }));

    private static string Subgroups(Subgrouping? subgrouping) => subgrouping?.ByCase switch
    {
        Subgrouping.ByOneofCase.ConsecutiveCount => $", subgroups of {NumberText.Plain(subgrouping.ConsecutiveCount)} readings",
        Subgrouping.ByOneofCase.Label => subgrouping.Label switch
        {
            SubgroupLabel.Roll => ", a subgroup for each roll",
            SubgroupLabel.Lot => ", a subgroup for each lot",
            _ => ", a subgroup for each label",
        },
        _ => "",
    };
}
