using ClearView.Plotting.Decisions;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

public sealed class LotComparisonChartTests
{
    [Fact]
    public void Build_EverySpecimen_IsMarkedInTheRowOfItsLot()
    {
        LotComparison comparison = SampleLots.Comparison(4, 12);
        PanelModel panel = LotComparisonChart.Build(comparison).Panels[0];

        ChartPoint[] specimens = [.. panel.Series.Single(series => series.Label == "specimen").Points];
        ChartPoint[] outliers = [.. panel.Series.Single(series => series.Label.StartsWith("outlier", StringComparison.Ordinal)).Points];
        // The first lot stands at the top: rows count down from the number of lots.
        for (int i = 0; i < 4; i++)
        {
            Assert.Equal(
                comparison.Lots[i].Value.Order(),
                specimens.Concat(outliers).Where(point => Math.Ceiling(point.Y) == 4 - i).Select(point => point.X).Order());
        }

        Assert.Equal(4, panel.Annotations.Count(word => word.Text == "outlier"));
        Assert.Equal(comparison.Lots.Select(lot => new { lot.LowerQuartile, lot.UpperQuartile }), panel.Series.Single(series => !series.Bars.IsEmpty).Bars.Select(bar => new { LowerQuartile = bar.FromX, UpperQuartile = bar.ToX }));
    }

    [Fact]
    public void Build_ManyPairs_ShowsTheLargestDifferencesAndSaysSo()
    {
        LotComparison comparison = SampleLots.Comparison(20, 12);
        ChartModel chart = LotComparisonChart.Build(comparison);

        PanelModel pairs = chart.Panels[1];
        double[] drawn = [.. pairs.Series.Where(series => !series.Whiskers.IsEmpty).SelectMany(series => series.Points).Where(point => double.IsFinite(point.X)).OrderByDescending(point => point.Y).Select(point => point.X)];
        Assert.Equal(comparison.Pairs.Select(pair => Math.Abs(pair.Difference)).OrderDescending().Take(20), drawn.Select(Math.Abs));
        Assert.Contains(chart.Notes, note => note.Contains("20 largest differences of 190 pairs", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(0.01, false, "shown different")]
    [InlineData(0.01, true, "shown different, equivalent")]
    [InlineData(0.2, true, "equivalent")]
    [InlineData(0.2, false, "not shown")]
    [InlineData(0.05, false, "not shown")]
    public void Word_OfAPair_FollowsItsTests(double p, bool equivalent, string expected) =>
        Assert.Equal(expected, PairPanel.Word(new LotPair { GamesHowell = new StatedTest { PValueFraction = p }, Equivalent = equivalent }, 95));

    [Fact]
    public void Word_OfARefusedTest_IsNotShown() =>
        Assert.Equal("not shown", PairPanel.Word(new LotPair { GamesHowell = new StatedTest { Refusal = "No spread." } }, 95));

    [Fact]
    public void Build_Bands_LieAroundZero()
    {
        PanelModel pairs = LotComparisonChart.Build(SampleLots.Comparison()).Panels[1];

        BarModel margin = Assert.Single(pairs.Series.Single(series => series.Label == "equivalence margin").Bars);
        BarModel tellable = Assert.Single(pairs.Series.Single(series => series.Label == "less than the instrument can tell").Bars);
        Assert.Equal((-0.2, 0.2), (margin.FromX, margin.ToX));
        // √2 · 0.05: the difference of two readings (JCGM 100, 5.1.2).
        Assert.Equal(0.0707, tellable.ToX, 1e-4);
        Assert.Equal(-tellable.ToX, tellable.FromX);
        Assert.Equal(0, Assert.Single(pairs.ReferenceLines).Value);
    }

    [Fact]
    public void Build_Ageing_HasALineAndAShapeForEachLot()
    {
        LotComparison comparison = SampleLots.Comparison(3, 12, aged: true);
        PanelModel ageing = LotComparisonChart.Build(comparison).Panels[2];

        Assert.Equal(3, ageing.Series.Select(series => series.Look.Mark).Distinct().Count());
        Assert.All(ageing.Series.Zip(comparison.Ageing.Slopes), pair =>
        {
            Assert.Equal(pair.Second.Initial + (500 * pair.Second.SlopePerH), pair.First.Points[1].Y, 1e-12);
            Assert.Equal(12, pair.First.Points.Skip(pair.First.MarkOffset).Count(point => double.IsFinite(point.X)));
        });
    }

    [Fact]
    public void Of_LongNames_KeepsWhatTellsThemApart()
    {
        string[] names = ShortNames.Of(["lot 2026-03-01 of line 2", "lot 2026-03-17 of line 2"], 10);

        Assert.Equal(["…01…", "…17…"], names);
        Assert.Equal(["a", "b"], ShortNames.Of(["a", "b"], 10));
        string middle = new('m', 10);
        Assert.Equal(
            ["ammm…mmma (1)", "ammm…mmma (2)", "bmmm…mmmb"],
            ShortNames.Of([$"a{middle}1{middle}a", $"a{middle}2{middle}a", $"b{middle}1{middle}b"], 9));
    }
}
