using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Tests.Charts;

public sealed class BudgetChartTests
{
    private const double Tolerance = 1e-12;

    [Fact]
    public void Build_Default_ShowsHazeTransmittanceAndYellowness()
    {
        ChartModel chart = BudgetChart.Build(SampleUncertainty.Film(), []);

        Assert.Equal(3, chart.Panels.Length);
        Assert.StartsWith("Haze ", chart.Panels[0].Heading, StringComparison.Ordinal);
        Assert.StartsWith("Luminous transmittance ", chart.Panels[1].Heading, StringComparison.Ordinal);
        Assert.StartsWith("Yellowness index E313 ", chart.Panels[2].Heading, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_Sources_AreSortedWithTheGreatestAtTheTop()
    {
        ChartReading reading = SampleUncertainty.Film();
        PanelModel panel = BudgetChart.Build(reading, ["haze"]).Panels[0];

        BarModel[] fromTop = [.. panel.Series.SelectMany(series => series.Bars).OrderByDescending(bar => bar.FromY)];
        Assert.Equal(reading.Find("haze")!.Uncertainty.Budget.Select(source => source.StandardUncertainty).OrderDescending(), fromTop.Select(bar => bar.ToX));
        Assert.All(fromTop, bar => Assert.True(bar.ToX < panel.X.Maximum));
        Assert.Equal(fromTop.Length, panel.Y.Ticks.Length);
        // JCGM 100, 5.1.2: the squares add up to that of the combined uncertainty.
        Assert.Equal(Math.Pow(reading.Find("haze")!.Uncertainty.StandardUncertainty, 2), fromTop.Sum(bar => bar.ToX * bar.ToX), Tolerance);
    }

    [Fact]
    public void Build_Correlation_DecidesThePattern()
    {
        ChartReading reading = SampleUncertainty.Film();
        PanelModel panel = BudgetChart.Build(reading, ["haze"]).Panels[0];

        double repeatability = reading.Find("haze")!.Uncertainty.Budget.Single(source => source.Correlation == "per wavelength").StandardUncertainty;
        Assert.Equal(repeatability, Assert.Single(panel.Series[0].Bars).ToX);
        Assert.Equal([FillKind.Solid, FillKind.Hatched], panel.Series.Select(series => series.Look.Fill));
    }

    [Fact]
    public void Build_Text_GivesContributionsSharesAndBothUncertainties()
    {
        ChartReading reading = SampleReadings.Film();
        MeasuredValue haze = reading.Find("haze")!;
        haze.Uncertainty = new Uncertainty
        {
            StandardUncertainty = 0.05,
            ExpandedUncertainty = 0.1,
            CoverageFactor = 2,
            CoveragePercent = 95.45,
            Budget =
            {
                new Contribution { Source = "Small", StandardUncertainty = 0.03, VarianceFraction = 0.36, Correlation = "per wavelength" },
                new Contribution { Source = "Great", StandardUncertainty = 0.04, VarianceFraction = 0.64, Correlation = "whole spectrum" },
            },
        };

        PanelModel panel = Assert.Single(BudgetChart.Build(reading, []).Panels);

        Assert.Equal(["0.040 % (64 %)", "0.030 % (36 %)"], panel.Annotations.Select(annotation => annotation.Text));
        Assert.Equal(["Great", "Small"], panel.Y.Ticks.Select(tick => tick.Label));
        Assert.Contains("combined u = 0.050 %, expanded U = 0.10 % (k = 2.0, 95.45 %)", panel.Heading, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_WithoutUncertainty_IsRefused() => Assert.Contains(
        "no uncertainty budget", Assert.Throws<ChartRefusedException>(() => BudgetChart.Build(SampleReadings.Film(), [])).Message, StringComparison.Ordinal);

    [Fact]
    public void Build_MeasurandWithout_IsRefusedWithThoseThatHave()
    {
        ChartRefusedException refusal = Assert.Throws<ChartRefusedException>(() => BudgetChart.Build(SampleUncertainty.Film(), ["delta_e_ab"]));

        Assert.Contains("\"delta_e_ab\"", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("haze", refusal.Message, StringComparison.Ordinal);
    }
}
