using ClearView.Plotting.Model;

namespace ClearView.Plotting.Tests.Charts;

public sealed class EveryChartTests
{
    public static TheoryData<string> Names => SampleCharts.Names;

    [Theory]
    [MemberData(nameof(Names))]
    public void Series_WithoutColour_ArePairwiseDistinct(string name)
    {
        ChartModel chart = SampleCharts.All[name]();
        SeriesModel[] legend = [.. chart.LegendSeries];

        Assert.NotEmpty(legend);
        Assert.Equal(legend.Length, legend.Select(Shape).Distinct().Count());
        Assert.All(legend, series => Assert.False(series.Look is { Line: LineKind.None, Mark: MarkKind.None, Fill: FillKind.None }, series.Label));
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Series_OfOneName_LookTheSameInEveryPanel(string name)
    {
        ChartModel chart = SampleCharts.All[name]();

        Assert.All(
            chart.Panels.SelectMany(panel => panel.Series).GroupBy(series => series.Label),
            group => Assert.Single(group.Select(series => (series.Look.Line, series.Look.Mark, series.Look.Fill, series.Look.Ink)).Distinct()));
    }

    private static (LineKind Line, MarkKind Mark, FillKind Fill, bool Whiskers) Shape(SeriesModel series) =>
        (series.Look.Line, series.Look.Mark, series.Look.Fill, !series.Whiskers.IsEmpty);

    [Theory]
    [MemberData(nameof(Names))]
    public void Axes_Always_AreLabelledAndFinite(string name)
    {
        ChartModel chart = SampleCharts.All[name]();

        Assert.NotEmpty(chart.Title);
        foreach (PanelModel panel in chart.Panels)
        {
            Assert.NotEmpty(panel.Y.Label);
            foreach (AxisModel axis in new[] { panel.X, panel.Y })
            {
                Assert.True(double.IsFinite(axis.Minimum) && double.IsFinite(axis.Maximum) && axis.Minimum < axis.Maximum);
            }
        }

        // Panels beneath one another share the horizontal label of the last.
        Assert.NotEmpty(chart.Panels[^1].X.Label);
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void Footer_Always_NamesStandardLightIntervalAndSource(string name)
    {
        string footer = string.Join(" ", SampleCharts.All[name]().Footer);

        Assert.Matches("ASTM|ISO|CIE", footer);
        Assert.Contains("illuminant", footer, StringComparison.Ordinal);
        Assert.Contains("observer", footer, StringComparison.Ordinal);
        Assert.Contains("interval 10 nm", footer, StringComparison.Ordinal);
        Assert.Contains("Source: ", footer, StringComparison.Ordinal);
    }
}
