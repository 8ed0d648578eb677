using ClearView.Plotting.Charts;
using ClearView.Plotting.Decisions;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

public sealed class RollMapChartTests
{
    [Fact]
    public void Build_Cells_LieBlockByBlockLaneByLane()
    {
        RollMap map = SampleRolls.Map(limits: new SeriesLimits { Upper = 2.8 });
        PanelModel panel = RollMapChart.Build(map).Panels[0];
        CellModel[] cells = [.. panel.Series[0].Cells];

        Assert.Equal(map.CellMean.Count(double.IsFinite), cells.Length);
        // Block 2, lane 5 of 40 blocks over 6000 m and 12 lanes over 1800 mm.
        Assert.Contains(cells, cell => cell.Area == new BarModel(300, 450, 750, 900));
        double[] means = [.. map.CellMean.Where(double.IsFinite)];
        Assert.Equal(means.Index().OrderBy(pair => pair.Item).Select(pair => pair.Index), cells.Index().OrderBy(pair => pair.Item.ScaleFraction).Select(pair => pair.Index));
        Assert.All(cells, cell => Assert.InRange(cell.ScaleFraction, 0, 1));
    }

    [Fact]
    public void Build_EmptyAndBeyond_AreMarkedByPattern()
    {
        RollMap map = SampleRolls.Map(limits: new SeriesLimits { Upper = 2.8 });
        PanelModel panel = RollMapChart.Build(map).Panels[0];

        SeriesModel empty = panel.Series.Single(series => series.Label == "no reading");
        SeriesModel beyond = panel.Series.Single(series => series.Label == "mean of a cell beyond a limit");
        Assert.Equal(map.CellMean.Count(double.IsNaN), empty.Bars.Length);
        Assert.Equal(map.CellMean.Count(mean => mean > 2.8), beyond.Bars.Length);
        Assert.Equal((FillKind.Dotted, FillKind.Hatched), (empty.Look.Fill, beyond.Look.Fill));
    }

    [Fact]
    public void Build_AStreak_HasABracketTheWordAndAShapeInTheProfile()
    {
        ChartModel chart = RollMapChart.Build(SampleRolls.Map(streak: 8));

        // Lane 8 of 12 over 1800 mm: from 1200 to 1350.
        SeriesModel bracket = chart.Panels[0].Series.Single(series => series.Label == "streak");
        Assert.Equal([1200, 1350], bracket.Points.Where(point => double.IsFinite(point.Y)).Select(point => point.Y).Distinct());
        Assert.All(bracket.Points.Where(point => double.IsFinite(point.X)), point => Assert.True(point.X > 6000 && point.X < chart.Panels[0].X.Maximum));
        Assert.Equal(new AxisTick(1275, "streak"), Assert.Single(chart.Panels[0].RightNames));
        SeriesModel lane = chart.Panels[1].Series.Single(series => series.Label == "lane with a streak");
        Assert.Equal(1275, Assert.Single(lane.Whiskers).At);
        Assert.NotEqual(chart.Panels[1].Series[0].Look.Mark, lane.Look.Mark);
    }

    [Fact]
    public void Build_Trend_IsTheLineOfTheMessage()
    {
        PanelModel along = RollMapChart.Build(SampleRolls.Map()).Panels[2];

        // 2.38 + 1.7e-5 per m over 6000 m.
        Assert.Equal([2.38, 2.482], along.Series[1].Points.Select(point => point.Y), (one, other) => Math.Abs(one - other) < 1e-12);
        Assert.StartsWith("trend shown: 0.0170 (0.0120 to 0.0220) % per km", along.Series[1].Label, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_Scale_CarriesUnitAndLimits()
    {
        RollMap map = SampleRolls.Map(limits: new SeriesLimits { Lower = 0.1, Upper = 2.8 });
        PanelModel scale = RollMapChart.Build(map).Panels[3];

        Assert.Equal("Colour: Haze (%)", scale.X.Label);
        Assert.Contains(scale.Series, series => series.Label == "upper 2.8 %" && series.Points.All(point => point.X == 2.8));
        Assert.Contains(scale.Annotations, word => word.Text.StartsWith("lower 0.1 %", StringComparison.Ordinal) && word.Text.EndsWith('←'));
    }

    [Fact]
    public void Build_Footer_GivesTheComponentsOfVariance() => Assert.Contains(
        RollMapChart.Build(SampleRolls.Map()).Footer, line => line.Contains("across (CD) 0.0042 %² (26 %)", StringComparison.Ordinal));

    [Fact]
    public void Build_CellsThatDoNotFit_AreRefused()
    {
        RollMap map = SampleRolls.Map();
        map.CellMean.RemoveAt(0);

        Assert.Contains("479 cells", Assert.Throws<ChartRefusedException>(() => RollMapChart.Build(map)).Message, StringComparison.Ordinal);
    }
}
