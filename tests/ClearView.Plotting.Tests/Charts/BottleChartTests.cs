using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Tests.Charts;

public sealed class BottleChartTests
{
    [Fact]
    public void Barrier_OneWall_MarksAndLabelsTheGreatestValueAgainstTheLimit()
    {
        ChartReading wall = SampleBottles.Wall(uncertain: true);
        LightBarrier barrier = wall.Evaluation.LightBarrier;

        ChartModel chart = LightBarrierChart.Build([wall]);

        PanelModel panel = Assert.Single(chart.Panels);
        SeriesModel line = panel.Series.Single(series => !series.Points.IsEmpty);
        Assert.Equal(new ChartPoint(barrier.MaximumAtNm, barrier.MaximumPercent), line.Points[line.MarkOnly!.Value]);
        Assert.Equal((290, 450), (line.Points[0].X, line.Points[^1].X));
        Assert.Equal(10, Assert.Single(panel.ReferenceLines).Value);
        string label = Assert.Single(panel.Annotations).Text;
        Assert.Contains("450 nm, within the limit", label, StringComparison.Ordinal);
        Assert.Contains("±", label, StringComparison.Ordinal);
        // By hand: 88 % / (1 + e^((500 − 450) / 18)) = 5.15 %.
        Assert.Contains("5.15", label, StringComparison.Ordinal);
    }

    [Fact]
    public void Barrier_Always_PrintsTheCautionInFull() =>
        Assert.Contains(SampleBottles.Wall().Evaluation.LightBarrier.Caution, LightBarrierChart.Build([SampleBottles.Wall()]).Notes);

    [Fact]
    public void Barrier_SeveralWalls_SaysInWordsWhichAreAbove()
    {
        ChartModel chart = LightBarrierChart.Build([SampleBottles.Wall(), SampleBottles.Wall(edgeNm: 440, specimen: "B2")]);

        Assert.Contains("1 of 2 above the limit of 10 %", chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains(chart.LegendSeries, series => series.Label.StartsWith("B1", StringComparison.Ordinal) && series.Label.Contains("within", StringComparison.Ordinal));
        Assert.Contains(chart.LegendSeries, series => series.Label.StartsWith("B2", StringComparison.Ordinal) && series.Label.Contains("above", StringComparison.Ordinal));
    }

    [Fact]
    public void Barrier_LimitInsideTheUncertainty_SaysSo() => Assert.Contains(
        LightBarrierChart.Build([SampleBottles.Wall(edgeNm: 487, uncertain: true)]).LegendSeries,
        series => series.Label.EndsWith("(by less than U)", StringComparison.Ordinal));

    [Fact]
    public void Barrier_ScanFrom360Nm_IsRefusedWithTheReason()
    {
        ChartRefusedException refusal = Assert.Throws<ChartRefusedException>(() => LightBarrierChart.Build([SampleBottles.Wall(startNm: 360)]));

        Assert.Contains("290", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("450", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Barrier_MethodWithoutLimit_IsRefusedWithWhatWouldDo() => Assert.Contains(
        "--light-barrier-limit",
        Assert.Throws<ChartRefusedException>(() => LightBarrierChart.Build([SampleBottles.Wall(limitPercent: null)])).Message,
        StringComparison.Ordinal);

    [Fact]
    public void Barrier_DifferentLimits_IsRefused() => Assert.Throws<ChartRefusedException>(
        () => LightBarrierChart.Build([SampleBottles.Wall(), SampleBottles.Wall(limitPercent: 12)]));

    [Fact]
    public void Barrier_MoreWallsThanLooks_IsRefused() => Assert.Throws<ChartRefusedException>(
        () => LightBarrierChart.Build([.. Enumerable.Range(0, LightBarrierChart.MostReadings + 1).Select(i => SampleBottles.Wall(specimen: $"B{i}"))]));

    [Fact]
    public void Wall_Regions_AreColumnsWithRangeMeanAndEveryReading()
    {
        ChartReading[] readings = [.. SampleBottles.Set().Take(12)];

        PanelModel panel = WallChart.Build(readings, ["cielab_b"]).Panels[0];

        Assert.Equal(["panel (3)", "shoulder (3)", "base (3)", "label area (3)"], panel.X.Ticks.Select(tick => tick.Label));
        double[] atPanel = [.. readings.Where(r => r.Measurement.Identification.Wall.Region == WallRegion.Panel).Select(r => r.Find("cielab_b")!.Value)];
        WhiskerModel range = panel.Series[0].Whiskers[0];
        Assert.Equal((atPanel.Min(), atPanel.Max()), (range.Low, range.High));
        Assert.Equal(atPanel.Average(), panel.Series[1].Points[0].Y, 12);
        Assert.Equal(12, panel.Series.Skip(2).Sum(series => series.Points.Length));
    }

    [Fact]
    public void Wall_TwoProducts_StandSideBySide()
    {
        PanelModel panel = WallChart.Build(SampleBottles.Set(), []).Panels[0];

        Assert.Equal(["amber bottle", "clear bottle"], panel.Bands.Select(band => band.Label));
        Assert.Equal(8, panel.X.Ticks.Length);
    }

    [Fact]
    public void Wall_Films_AreRefused() => Assert.Contains(
        "region", Assert.Throws<ChartRefusedException>(() => WallChart.Build([SampleReadings.Film()], [])).Message, StringComparison.Ordinal);

    [Fact]
    public void Wall_SomeFilms_SaysThatTheyAreNotShown() => Assert.Contains(
        WallChart.Build([SampleBottles.Wall(), SampleReadings.Film()], []).Notes, note => note.Contains("1 of 2 readings", StringComparison.Ordinal));

    [Fact]
    public void Wall_UnknownMeasurand_IsRefusedWithThoseThatAreGiven() => Assert.Contains(
        "haze", Assert.Throws<ChartRefusedException>(() => WallChart.Build([SampleBottles.Wall()], ["delta_e_ab"])).Message, StringComparison.Ordinal);
}
