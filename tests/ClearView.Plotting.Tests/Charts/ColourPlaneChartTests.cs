using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;

namespace ClearView.Plotting.Tests.Charts;

public sealed class ColourPlaneChartTests
{
    [Fact]
    public void Build_Always_HasAnEqualScalePlaneAndLightnessBeside()
    {
        ChartModel chart = ColourPlaneChart.Build([SampleReadings.Film()]);

        Assert.Equal(PanelArrangement.Beside, chart.Arrangement);
        Assert.True(chart.Panels[0].EqualScale);
        Assert.Contains("− green, + red", chart.Panels[0].X.Label, StringComparison.Ordinal);
        Assert.Contains("− blue, + yellow", chart.Panels[0].Y.Label, StringComparison.Ordinal);
        Assert.StartsWith("L*", chart.Panels[1].Y.Label, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_NeutralFilm_LiesAtTheOriginWithTheLightnessOfItsTransmittance()
    {
        ChartModel chart = ColourPlaneChart.Build([SampleReadings.Film(totalPercent: 50)]);

        // CIE 15: L* = 116 (Y/Yn)^(1/3) - 16, so a neutral 50 % gives 76.07; a* = b* = 0.
        ChartPoint colour = Assert.Single(chart.Panels[0].Series[0].Points);
        Assert.Equal(0, colour.X, 9);
        Assert.Equal(0, colour.Y, 9);
        Assert.Equal((116 * Math.Cbrt(0.5)) - 16, Assert.Single(chart.Panels[1].Series[0].Points).Y, 9);
    }

    [Fact]
    public void Build_YellowFilm_LiesOnTheYellowSide() =>
        Assert.True(ColourPlaneChart.Build([SampleReadings.Film(blueLossPercent: 20)]).Panels[0].Series[0].Points[0].Y > 1);

    [Fact]
    public void Build_SeveralProducts_AreGroupedByProduct()
    {
        ChartModel chart = ColourPlaneChart.Build([SampleReadings.Film(product: "A", roll: "1"), SampleReadings.Film(product: "B", roll: "2")]);

        Assert.Equal(["A", "B"], chart.LegendSeries.Select(series => series.Label));
    }

    [Fact]
    public void Build_OneProduct_IsGroupedByRoll()
    {
        ChartModel chart = ColourPlaneChart.Build([SampleReadings.Film(roll: "1"), SampleReadings.Film(roll: "2"), SampleReadings.Film(roll: "2")]);

        Assert.Equal(["roll 1", "roll 2"], chart.LegendSeries.Select(series => series.Label));
        Assert.Equal([1, 2], chart.Panels[0].Series.Select(series => series.Points.Length));
    }

    [Fact]
    public void Build_MoreGroupsThanMarks_KeepsThemTogether()
    {
        ChartModel chart = ColourPlaneChart.Build([.. Enumerable.Range(0, 40).Select(i => SampleReadings.Film(roll: $"{i}", specimen: $"{i}"))]);

        Assert.Equal(40, Assert.Single(chart.Panels[0].Series).Points.Length);
    }

    [Fact]
    public void Build_DifferentLights_IsRefused()
    {
        ChartRefusedException refusal = Assert.Throws<ChartRefusedException>(() => ColourPlaneChart.Build(
            [SampleReadings.Film(), SampleReadings.Film(method: SampleReadings.Method(colourIlluminant: "C"))]));

        Assert.Contains("illuminant D65", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("illuminant C", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_Empty_IsRefused() => Assert.Throws<ChartRefusedException>(() => ColourPlaneChart.Build([]));

    [Fact]
    public void Build_HazemeterOnly_IsRefused() =>
        Assert.Contains(
            "hazemeter", Assert.Throws<ChartRefusedException>(() => ColourPlaneChart.Build([SampleReadings.Hazemeter()])).Message, StringComparison.Ordinal);

    [Fact]
    public void Build_SomeHazemeter_SaysThatTheyAreNotShown() =>
        Assert.Contains(
            ColourPlaneChart.Build([SampleReadings.Film(), SampleReadings.Hazemeter()]).Notes,
            note => note.Contains("1 of 2 readings have no colour", StringComparison.Ordinal));
}
