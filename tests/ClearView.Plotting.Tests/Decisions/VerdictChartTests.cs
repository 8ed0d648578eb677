using ClearView.Plotting.Charts;
using ClearView.Plotting.Decisions;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

public sealed class VerdictChartTests
{
    [Fact]
    public void Build_TwoLimits_ScaleTheRow()
    {
        PanelModel panel = VerdictChart.Build(SampleVerdicts.Of(SampleVerdicts.Limit("b*", "", -1, 1, 0, 0.6, 0.2, VerdictOutcome.Conformity))).Panels[0];

        // −1 … 1 is mapped to 0 … 1: 0.6 lies at 0.8, U at ± 0.1, the guard band from 0.1 inside to 0.1 outside each limit.
        Assert.Equal(new ChartPoint(0.8, 0.5), Assert.Single(Find(panel, "conformity").Points));
        WhiskerModel bar = Assert.Single(Find(panel, "expanded uncertainty U").Whiskers);
        Assert.Equal([0.7, 0.9], new[] { bar.Low, bar.High }, Close);
        Assert.Equal([-0.1, 0.1, 0.9, 1.1], Find(panel, "guard band: neither proven").Bars.SelectMany(one => new[] { one.FromX, one.ToX }), Close);
        Assert.Equal(["≥ −1", "≤ 1"], panel.Annotations.Select(word => word.Text));
        Assert.Equal(["conformity", "0.60 ± 0.20"], panel.RightNames.Select(name => name.Label));
    }

    [Theory]
    [InlineData(null, 3.0, 2.5, true)]
    [InlineData(null, 3.0, 3.5, false)]
    [InlineData(90.0, null, 91.0, true)]
    [InlineData(90.0, null, 89.9, false)]
    [InlineData(null, 0.0, 0.0, true)]
    public void Build_OneLimit_PutsTheValueOnItsSideWithinTheRow(double? lower, double? upper, double value, bool within)
    {
        PanelModel panel = VerdictChart.Build(SampleVerdicts.Of(SampleVerdicts.Limit("x", "%", lower, upper, null, value, 0.1, VerdictOutcome.NeitherProven))).Panels[0];

        double at = Assert.Single(Find(panel, "neither proven").Points).X;
        Assert.Equal(within, upper is null ? at >= 0 : at <= 1);
        Assert.InRange(at, panel.X.Minimum, panel.X.Maximum);
    }

    [Fact]
    public void Build_FarOutside_IsAtTheEdgeWithAnArrow()
    {
        PanelModel panel = VerdictChart.Build(SampleVerdicts.Of(SampleVerdicts.Limit("b*", "", -1, 1, null, 90, 0.2, VerdictOutcome.NonConformity))).Panels[0];

        Assert.InRange(Assert.Single(Find(panel, "non-conformity").Points).X, 1, panel.X.Maximum);
        Assert.NotEmpty(Find(panel, "further out").Points);
        Assert.Contains(panel.RightNames, name => name.Label == "90.00 ± 0.20");
    }

    [Fact]
    public void Build_SimpleAcceptance_HasNoGuardBand()
    {
        Verdict verdict = SampleVerdicts.Certificate();
        verdict.DecisionRule = new DecisionRule { SimpleAcceptance = new SimpleAcceptance() };
        ChartModel chart = VerdictChart.Build(verdict);

        Assert.DoesNotContain(chart.Panels[0].Series, series => series.Look.Fill == FillKind.Hatched);
        Assert.Contains("simple acceptance", chart.Footer[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Build_Outcomes_DifferInShapeAndWord()
    {
        ChartModel chart = VerdictChart.Build(SampleVerdicts.Certificate());
        string[] outcomes = ["conformity", "neither proven", "non-conformity"];

        Assert.Equal("Verdict: non-conformity", chart.Title);
        Assert.Equal(3, outcomes.Select(word => Find(chart.Panels[0], word).Look.Mark).Distinct().Count());
        Assert.Contains(chart.Panels[0].Annotations, word => word.Text == "no value");
        Assert.Contains(chart.Panels[0].RightNames, name => name.Label == "not decided");
    }

    [Fact]
    public void Build_WithoutLimits_IsRefused() => Assert.Throws<ChartRefusedException>(() => VerdictChart.Build(new Verdict()));

    private static bool Close(double one, double other) => Math.Abs(one - other) < 1e-12;

    private static SeriesModel Find(PanelModel panel, string label) => panel.Series.Single(series => series.Label == label);
}
