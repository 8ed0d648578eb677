using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Tests.Charts;

public sealed class UncertaintyBandTests
{
    private const double Tolerance = 1e-9;

    [Fact]
    public void Spectrum_Uncertain_DrawsValuePlusMinusKTimesU()
    {
        ChartReading reading = SampleUncertainty.Film();
        double k = reading.Find("luminous_transmittance")!.Uncertainty.CoverageFactor;

        PanelModel panel = SpectralTransmittanceChart.Build(reading).Panels[0];

        SeriesModel band = panel.Series[0];
        SeriesModel total = panel.Series.Single(series => series.Label == "total transmittance");
        Assert.Equal(total.Points.Length, band.Ribbon.Length);
        Assert.All(band.Ribbon.Zip(total.Points), pair =>
        {
            Assert.Equal(pair.Second.X, pair.First.X);
            Assert.Equal(pair.Second.Y - (100 * k * SampleUncertainty.TotalFraction), pair.First.Low, Tolerance);
            Assert.Equal(pair.Second.Y + (100 * k * SampleUncertainty.TotalFraction), pair.First.High, Tolerance);
        });
    }

    [Fact]
    public void Spectrum_Uncertain_NamesTheBandOnceInTheLegendAndKeepsItOnTheAxis()
    {
        ChartModel chart = SpectralTransmittanceChart.Build(SampleUncertainty.Film(totalPercent: 80, diffusePercent: 60));

        // Normal distribution: 95 % is covered by k = 1.96 (JCGM 100, table G.1).
        SeriesModel legend = Assert.Single(chart.LegendSeries, series => series.Look.Fill != FillKind.None);
        Assert.Equal("U, k = 2.0, 95 %", legend.Label);
        Assert.Equal(FillKind.Light, legend.Look.Fill);
        Assert.Equal([2, 1], chart.Panels.Select(panel => panel.Series.Count(series => !series.Ribbon.IsEmpty)));
        Assert.All(chart.Panels, panel => Assert.All(panel.Series.SelectMany(series => series.Ribbon), slice =>
        {
            Assert.InRange(slice.Low, panel.Y.Minimum, panel.Y.Maximum);
            Assert.InRange(slice.High, panel.Y.Minimum, panel.Y.Maximum);
        }));
    }

    [Fact]
    public void Spectrum_UncertaintyOfAnotherLength_IsRefused()
    {
        ChartReading reading = SampleUncertainty.Film();
        reading.Evaluation.Spectra.TotalStandardUncertaintyFraction.RemoveAt(0);

        Assert.Throws<ChartRefusedException>(() => SpectralTransmittanceChart.Build(reading));
    }

    [Fact]
    public void Spectrum_WithoutUncertainty_HasNoBand() =>
        Assert.DoesNotContain(SpectralTransmittanceChart.Build(SampleReadings.Film()).LegendSeries, series => series.Look.Fill != FillKind.None);

    [Fact]
    public void Haze_Uncertain_HasItsOwnBandAndFit()
    {
        ChartReading reading = SampleUncertainty.Film();
        double k = reading.Find("haze")!.Uncertainty.CoverageFactor;

        PanelModel panel = Assert.Single(HazeSpectrumChart.Build(reading).Panels);

        Assert.Equal(2 * k * SampleUncertainty.HazePercent, panel.Series[0].Ribbon[3].High - panel.Series[0].Ribbon[3].Low, Tolerance);
        SeriesModel fit = panel.Series[^1];
        Assert.Equal((400, 700), (fit.Points[0].X, fit.Points[^1].X));
        // H ∝ λ^-n: the ratio of the ends gives the exponent back.
        double n = -Math.Log(fit.Points[^1].Y / fit.Points[0].Y) / Math.Log(700.0 / 400);
        Assert.Equal(reading.Evaluation.Scattering.Exponent, n, Tolerance);
        Assert.Contains("u(n) = ", fit.Label, StringComparison.Ordinal);
    }

    [Fact]
    public void Haze_PowerOfTheWavelength_IsMetByTheFit()
    {
        ChartReading reading = SampleReadings.Film();
        TransmittanceSpectra spectra = reading.Evaluation.Spectra;
        for (int i = 0; i < spectra.HazePercent.Count; i++)
        {
            spectra.HazePercent[i] = 3 * Math.Pow((380 + (10 * i)) / 550.0, -4);
        }

        reading.Evaluation.Scattering = new ScatteringFit { Exponent = 4, ExponentStandardError = 0.01 };

        SeriesModel fit = HazeSpectrumChart.Build(reading).Panels[0].Series[^1];

        Assert.Equal(3, fit.Points.Single(point => point.X == 550).Y, Tolerance);
        Assert.Contains("n = 4.00 ± 0.01", fit.Label, StringComparison.Ordinal);
    }

    [Fact]
    public void Haze_TotalOnly_IsRefused() => Assert.Contains(
        "diffuse", Assert.Throws<ChartRefusedException>(() => HazeSpectrumChart.Build(SampleReadings.Film(diffusePercent: null))).Message, StringComparison.Ordinal);

    [Fact]
    public void Bands_OwnAndNamed_StandInTheStripWithTheirNames()
    {
        ChartModel chart = SpectralTransmittanceChart.Build(SampleUncertainty.Film(method: SampleCharts.WithOwnBands()), withBands: true);

        PanelModel strip = chart.Panels[0];
        Assert.Equal(
            ["UV-A", "visible", "photosynthetic", "own 400-450 nm", "own 640-670 nm"], strip.Annotations.Select(annotation => annotation.Text));
        // CIE S 017: visible 380-780 nm, UV-A up to 400 nm; the scan begins at 380 nm.
        Assert.Equal([(380, 400), (380, 780), (400, 700)], strip.Series[0].Bars.Select(bar => (bar.FromX, bar.ToX)));
        Assert.Equal([(400, 450), (640, 670)], strip.Series[1].Bars.Select(bar => (bar.FromX, bar.ToX)));
        BarModel[] bars = [.. strip.Series.SelectMany(series => series.Bars)];
        Assert.All(bars.SelectMany((one, i) => bars.Skip(i + 1).Select(other => (one, other))), pair =>
            Assert.True(pair.one.ToX <= pair.other.FromX || pair.other.ToX <= pair.one.FromX || pair.one.FromY != pair.other.FromY));
    }

    [Theory]
    [InlineData(0.0123, "0.012")]
    [InlineData(0.996, "1.00")]
    [InlineData(12.4, "12")]
    public void Two_Uncertainty_HasTwoSignificantDigits(double uncertainty, string expected) => Assert.Equal(expected, Digits.Two(uncertainty));

    [Fact]
    public void Run_Uncertain_HasAWhiskerOfUAtEachReading()
    {
        IReadOnlyList<ChartReading> run = SampleUncertainty.Run();

        PanelModel panel = RunChart.Build(run, "haze", null).Panels[0];

        WhiskerModel[] whiskers = [.. panel.Series.SelectMany(series => series.Whiskers)];
        Assert.Equal(run.Select(r => r.Find("haze")!.Value - r.Find("haze")!.Uncertainty.ExpandedUncertainty), whiskers.Select(one => one.Low));
        Assert.Equal(run.Select(r => r.Find("haze")!.Value + r.Find("haze")!.Uncertainty.ExpandedUncertainty), whiskers.Select(one => one.High));
        Assert.All(whiskers, one => Assert.True(one.Low >= panel.Y.Minimum && one.High <= panel.Y.Maximum));
    }

    [Fact]
    public void Run_EveryMeasurandThatIsGiven_CanBeShownAndUsesItsAxis()
    {
        IReadOnlyList<ChartReading> run = SampleUncertainty.Run();
        string[] given = [.. run[^1].Evaluation.Values.Select(value => value.Measurand)];

        Assert.True(given.Length > 20);
        Assert.All(given, id =>
        {
            PanelModel panel = RunChart.Build(run, id, null).Panels[0];
            double[] drawn = [.. panel.Series.SelectMany(s => s.Whiskers.SelectMany(one => new[] { one.Low, one.High }).Concat(s.Points.Select(p => p.Y)))
                .Where(double.IsFinite)];
            Assert.InRange(drawn.Max(), panel.Y.Minimum, panel.Y.Maximum);
            Assert.InRange(drawn.Min(), panel.Y.Minimum, panel.Y.Maximum);
        });
    }
}
