using ClearView.Plotting.Decisions;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

public sealed class CapabilityChartTests
{
    [Fact]
    public void Build_BinsCurveLimitsAndMean_LieWhereTheyAreStated()
    {
        Capability capability = SampleCapabilities.Normal(new SeriesLimits { Lower = 1.8, Upper = 3, Target = 2.45 });
        PanelModel panel = CapabilityChart.Build(capability).Panels[0];

        Assert.Equal(
            capability.Histogram.Where(bin => bin.ReadingCount > 0).Select(bin => new BarModel(bin.Lower, bin.Upper, 0, bin.ReadingCount)),
            panel.Series[0].Bars);
        ChartPoint[] curve = [.. panel.Series[1].Points];
        Assert.All(
            capability.Histogram.Zip(capability.FittedBinCount),
            pair => Assert.Contains(curve, point => Math.Abs(point.X - ((pair.First.Lower + pair.First.Upper) / 2)) < 1e-12 && Math.Abs(point.Y - pair.Second) < 1e-9));
        Assert.Equal([1.8, 2.45, 3, 2.4], panel.ReferenceLines.Select(line => line.Value));
        Assert.Equal(["lower limit 1.8 %", "target 2.45 %", "upper limit 3 %", "mean 2.40 %"], panel.TopNames.Select(name => name.Label));
    }

    [Fact]
    public void Build_Box_HoldsEveryFigure()
    {
        Dictionary<string, string> box = CapabilityChart.Build(SampleCapabilities.Normal(new SeriesLimits { Upper = 3 })).Figures
            .Where(figure => figure.Value.Length > 0).ToDictionary(figure => figure.Label, figure => figure.Value);

        Assert.Equal("500", box["n"]);
        Assert.Equal("0.12 %", box["s, all readings"]);
        Assert.Equal("1.33 (1.23 to 1.43)", box["Cpk"]);
        Assert.Equal("1.12", box["Cpm"]);
        Assert.Equal("1350 ppm", box["expected"]);
        Assert.Equal("below 0.1 ppm", box["expected, s within"]);
        Assert.Equal("2000 ppm", box["found"]);
        Assert.Equal("0.342", box["normality, p"]);
        Assert.Equal("normal", box["model"]);
    }

    [Fact]
    public void Build_Refused_SaysWhyAndGivesNoIndex()
    {
        ChartModel chart = CapabilityChart.Build(SampleCapabilities.Refused());

        Assert.Contains(chart.Notes, note => note.StartsWith("Refused: The process is not stable", StringComparison.Ordinal));
        Assert.DoesNotContain(chart.Figures, figure => figure.Label == "Cpk");
        Assert.Single(chart.Panels[0].Series);
    }

    [Fact]
    public void Through_AParabola_PassesBetweenItsPointsCloseToIt()
    {
        // The slope of a parabola half-way between two points is that of their chord: inner pieces are exact.
        ChartPoint[] points = [.. Enumerable.Range(0, 6).Select(i => new ChartPoint(i, i * i))];

        Assert.All(SmoothLine.Through(points).Where(point => point.X is >= 1 and <= 4), point => Assert.Equal(point.X * point.X, point.Y, 1e-12));
    }
}
