using ClearView.Contract.ControlCharts;
using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Contract.Tests.ControlCharts;

public sealed class ControlChartRulesTests
{
    public static TheoryData<string, Action<StoreControlChartRequest>> Spoilers { get; } = new()
    {
        { "name", r => r.Name = "Line 3" },
        { "name", r => r.Name = "" },
        { "description", r => r.Description = new string('x', 201) },
        { "description", r => r.Description = "" },
        { "stored_by", r => r.StoredBy = new string('x', 101) },
        { "control_chart", r => r.ControlChart = null },
        { "control_chart.series", r => r.ControlChart.Series = null },
        { "control_chart.series.measurand", r => r.ControlChart.Series.Measurand = "gloss-of-nothing" },
        { "control_chart.series.line", r => r.ControlChart.Series.Line = new string('x', 101) },
        { "control_chart.kind", r => r.ControlChart.Kind = ControlChartKind.Unspecified },
        { "control_chart.kind", r => r.ControlChart.Kind = (ControlChartKind)42 },
        { "control_chart.subgrouping", r => r.ControlChart.Subgrouping = new Subgrouping { ConsecutiveCount = 2 } },
        { "control_chart.subgrouping", r => { r.ControlChart = ChartExamples.Averages(); r.ControlChart.Subgrouping = null; } },
        { "control_chart.subgrouping", r => { r.ControlChart = ChartExamples.Averages(); r.ControlChart.Subgrouping = new Subgrouping(); } },
        { "control_chart.subgrouping.consecutive_count", r => r.ControlChart = ChartExamples.Averages(1) },
        { "control_chart.subgrouping.consecutive_count", r => r.ControlChart = ChartExamples.Averages(26) },
        { "control_chart.subgrouping.consecutive_count", r => { r.ControlChart = ChartExamples.Averages(1001); r.ControlChart.Kind = ControlChartKind.Ewma; } },
        { "control_chart.subgrouping.label", r => { r.ControlChart = ChartExamples.Averages(); r.ControlChart.Subgrouping.Label = (SubgroupLabel)9; } },
        { "control_chart.subgrouping.label", r => { r.ControlChart = ChartExamples.Averages(); r.ControlChart.Subgrouping.Label = SubgroupLabel.Given; } },
        { "control_chart.run_rules.patterns", r => r.ControlChart.RunRules = new RunRules() },
        { "control_chart.run_rules.patterns[0]", r => r.ControlChart.RunRules = new RunRules { Patterns = { (ControlPattern)13 } } },
        { "control_chart.run_rules.patterns[1]", r => r.ControlChart.RunRules = new RunRules { Patterns = { ControlPattern.Trend, ControlPattern.Trend } } },
        { "control_chart.run_rules.run_length_count", r => r.ControlChart.RunRules = new RunRules { Patterns = { ControlPattern.Trend }, RunLengthCount = 4 } },
        { "control_chart.run_rules.trend_length_count", r => r.ControlChart.RunRules = new RunRules { Patterns = { ControlPattern.Trend }, TrendLengthCount = 16 } },
        { "control_chart.ewma", r => r.ControlChart.Ewma = new EwmaSettings { Weight = 0.2, LimitWidth = 3 } },
        { "control_chart.ewma.weight", r => Ewma(r, 1.01, 3) },
        { "control_chart.ewma.weight", r => Ewma(r, 0, 3) },
        { "control_chart.ewma.limit_width", r => Ewma(r, 0.2, double.NaN) },
        { "control_chart.cusum", r => r.ControlChart.Cusum = new CusumSettings { Slack = 0.5, DecisionInterval = 5 } },
        { "control_chart.cusum.slack", r => Cusum(r, new CusumSettings { Slack = -0.1, DecisionInterval = 5 }) },
        { "control_chart.cusum.decision_interval", r => Cusum(r, new CusumSettings { DecisionInterval = 0 }) },
        { "control_chart.cusum.target", r => Cusum(r, new CusumSettings { DecisionInterval = 5, Target = double.NaN }) },
        { "control_chart.phases", r => r.ControlChart.Phases.Clear() },
        { "control_chart.phases", r => r.ControlChart.Phases.AddRange(Enumerable.Range(1, 100).Select(Later)) },
        { "control_chart.phases[0].name", r => r.ControlChart.Phases[0].Name = " " },
        { "control_chart.phases[0]", r => r.ControlChart.Phases[0].ClearLimitsChoice() },
        { "control_chart.phases[1].measured_from", r => r.ControlChart.Phases.Add(new ControlPhase { Name = "later", Limits = ChartExamples.Known() }) },
        { "control_chart.phases[2].measured_from", r => r.ControlChart.Phases.AddRange([Later(5), Later(5)]) },
        { "control_chart.phases[0].limits.centre", r => r.ControlChart.Phases[0].Limits.Centre = double.NaN },
        { "control_chart.phases[0].limits.standard_deviation", r => r.ControlChart.Phases[0].Limits.StandardDeviation = 0 },
        { "control_chart.phases[0].limits.subgroup_count", r => r.ControlChart.Phases[0].Limits.SubgroupCount = 2 },
        { "control_chart.phases[0].limits.subgroup_count", r => { r.ControlChart = ChartExamples.Averages(); r.ControlChart.Phases[0].Limits.SubgroupCount = 4; } },
        { "control_chart.phases[0].limits.baseline_count", r => r.ControlChart.Phases[0].Limits.BaselineCount = uint.MaxValue },
        { "control_chart.phases[0].limits.remarks", r => r.ControlChart.Phases[0].Limits.Remarks.AddRange(Enumerable.Repeat("x", 21)) },
        {
            "control_chart.phases[0].baseline.measured_before",
            r => r.ControlChart.Phases[0].Baseline = new MeasuredSpan { MeasuredFrom = ChartExamples.At(1), MeasuredBefore = ChartExamples.At(1) }
        },
    };

    public static TheoryData<Action<StoreControlChartRequest>> Sound { get; } = new()
    {
        _ => { },
        r => r.ControlChart = ChartExamples.Averages(25),
        r => { r.ControlChart = ChartExamples.Averages(1000); r.ControlChart.Kind = ControlChartKind.AveragesWithStandardDeviation; },
        r => { r.ControlChart = ChartExamples.Averages(); r.ControlChart.Subgrouping.Label = SubgroupLabel.Roll; },
        r => r.ControlChart.RunRules = new RunRules { Patterns = { Enum.GetValues<ControlPattern>().Skip(1) }, RunLengthCount = 5, TrendLengthCount = 15 },
        r => Ewma(r, 1, 0.1),
        r => { Ewma(r, 1, 0.1); r.ControlChart.Ewma = null; r.ControlChart.Subgrouping = new Subgrouping { ConsecutiveCount = 2 }; },
        r => Cusum(r, new CusumSettings { Slack = 0, DecisionInterval = 0.1, Target = -3 }),
        r => r.ControlChart.Phases.AddRange(Enumerable.Range(1, 99).Select(Later)),
        r => r.ControlChart.Phases[0].Baseline = new MeasuredSpan(),
    };

    [Theory]
    [MemberData(nameof(Spoilers))]
    public void Check_OneFieldSpoilt_NamesThatFieldOnly(string field, Action<StoreControlChartRequest> spoil)
    {
        FieldViolation violation = Assert.Single(Check(spoil));

        Assert.Equal(field, violation.Field);
        Assert.Contains("expected", violation.Description, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Sound))]
    public void Check_Sound_FindsNothing(Action<StoreControlChartRequest> change) => Assert.Empty(Check(change));

    [Fact]
    public void Check_ManyFaults_NamesAllAtOnce()
    {
        FieldViolation[] violations = Check(r =>
        {
            r.Name = "";
            r.StoredBy = "";
            r.ControlChart.Kind = ControlChartKind.Unspecified;
            r.ControlChart.Phases[0].Name = "";
            r.ControlChart.Phases[0].Limits.StandardDeviation = double.NaN;
        });

        Assert.Equal(
            ["name", "stored_by", "control_chart.kind", "control_chart.phases[0].name", "control_chart.phases[0].limits.standard_deviation"],
            violations.Select(violation => violation.Field));
    }

    [Theory]
    [InlineData(99u, false)]
    [InlineData(100u, true)]
    [InlineData(100_000u, true)]
    [InlineData(100_001u, false)]
    [InlineData(0u, true)]
    public void Check_MostPoints_HasBothBounds(uint most, bool sound)
    {
        Violations violations = new();
        ControlChartRules.Check(
            new GetControlChartRequest { ControlChartName = new ControlChartName { Name = "line-3" }, MostPointsCount = most }, violations);

        Assert.Equal(sound, violations.IsEmpty);
    }

    [Fact]
    public void Check_NoName_NamesIt()
    {
        Violations violations = new();
        ControlChartRules.Check(new GetControlChartRequest(), violations);

        Assert.Equal("control_chart_name", Assert.Single(violations.ToImmutable()).Field);
    }

    private static FieldViolation[] Check(Action<StoreControlChartRequest> change)
    {
        StoreControlChartRequest request = ChartExamples.Store();
        change(request);
        Violations violations = new();
        ControlChartRules.Check(request, violations);
        return [.. violations.ToImmutable()];
    }

    private static ControlPhase Later(int minute) =>
        new() { Name = "later", MeasuredFrom = ChartExamples.At(minute), Limits = ChartExamples.Known() };

    private static void Ewma(StoreControlChartRequest request, double weight, double width)
    {
        request.ControlChart.Kind = ControlChartKind.Ewma;
        request.ControlChart.Ewma = new EwmaSettings { Weight = weight, LimitWidth = width };
    }

    private static void Cusum(StoreControlChartRequest request, CusumSettings settings)
    {
        request.ControlChart.Kind = ControlChartKind.Cusum;
        request.ControlChart.Cusum = settings;
    }
}
