using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;

namespace ClearView.Plotting.Tests.Charts;

public sealed class SpectralTransmittanceChartTests
{
    [Fact]
    public void Build_ClearFilm_DrawsDiffuseBesideHaze()
    {
        ChartModel chart = SpectralTransmittanceChart.Build(SampleReadings.Film(totalPercent: 90, diffusePercent: 1.8));

        Assert.Equal(2, chart.Panels.Length);
        Assert.Equal(["total transmittance", "regular transmittance"], chart.Panels[0].Series.Select(s => s.Label));
        Assert.Equal(["diffuse transmittance", "spectral haze"], chart.Panels[1].Series.Select(s => s.Label));
        Assert.Equal("Transmittance (%)", chart.Panels[0].Y.Label);
        Assert.Equal("Wavelength (nm)", chart.Panels[1].X.Label);
    }

    [Fact]
    public void Build_ClearFilm_ShowsPercentAtEachWavelength()
    {
        ChartModel chart = SpectralTransmittanceChart.Build(SampleReadings.Film(totalPercent: 90, diffusePercent: 1.8));

        // By hand: regular = 90 - 1.8 = 88.2 %; haze = 100 × 1.8 / 90 = 2 %.
        Assert.Equal([380, 390, 400], chart.Panels[0].Series[0].Points.Take(3).Select(p => p.X));
        Assert.All(chart.Panels[0].Series[0].Points, p => Assert.Equal(90, p.Y, 10));
        Assert.All(chart.Panels[0].Series[1].Points, p => Assert.Equal(88.2, p.Y, 10));
        Assert.All(chart.Panels[1].Series[0].Points, p => Assert.Equal(1.8, p.Y, 10));
        Assert.All(chart.Panels[1].Series[1].Points, p => Assert.Equal(2, p.Y, 10));
    }

    [Fact]
    public void Build_DiffusingSheet_DrawsAllTransmittancesTogether()
    {
        ChartModel chart = SpectralTransmittanceChart.Build(SampleReadings.Film(totalPercent: 80, diffusePercent: 60));

        Assert.Equal(3, chart.Panels[0].Series.Length);
        Assert.Equal("Spectral haze (%)", chart.Panels[1].Y.Label);
    }

    [Fact]
    public void Build_TotalOnly_HasOnePanelAndSaysThatDiffuseIsMissing()
    {
        ChartModel chart = SpectralTransmittanceChart.Build(SampleReadings.Film(diffusePercent: null));

        PanelModel panel = Assert.Single(chart.Panels);
        Assert.Equal("total transmittance", Assert.Single(panel.Series).Label);
        Assert.Equal("Wavelength (nm)", panel.X.Label);
        Assert.Contains(chart.Notes, note => note.Contains("iffuse", StringComparison.Ordinal));
    }

    [Fact]
    public void Build_Hazemeter_IsRefusedWithWhatWouldDo()
    {
        ChartRefusedException refusal = Assert.Throws<ChartRefusedException>(() => SpectralTransmittanceChart.Build(SampleReadings.Hazemeter("H7")));

        Assert.Contains("H7", refusal.Message, StringComparison.Ordinal);
        Assert.Contains("hazemeter", refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_WithoutSpectra_IsRefused()
    {
        ChartReading reading = SampleReadings.Film();
        reading.Evaluation.Spectra = null;

        Assert.Throws<ChartRefusedException>(() => SpectralTransmittanceChart.Build(reading));
    }

    [Fact]
    public void Build_SpectraOfAnotherLength_IsRefused()
    {
        ChartReading reading = SampleReadings.Film();
        reading.Evaluation.Spectra.HazePercent.RemoveAt(0);

        Assert.Throws<ChartRefusedException>(() => SpectralTransmittanceChart.Build(reading));
    }

    [Fact]
    public void Build_HazeNotANumber_LeavesAGapAndAFiniteAxis()
    {
        ChartReading reading = SampleReadings.Film();
        reading.Evaluation.Spectra.HazePercent[5] = double.NaN;

        ChartModel chart = SpectralTransmittanceChart.Build(reading);

        Assert.True(double.IsNaN(chart.Panels[1].Series[^1].Points[5].Y));
        Assert.True(double.IsFinite(chart.Panels[1].Y.Minimum));
        Assert.True(chart.Panels[1].Y.Maximum > chart.Panels[1].Y.Minimum);
    }

    [Fact]
    public void Build_NearlyDarkWavelengths_DoNotStretchTheHazeAxisAndAreNoted()
    {
        ChartReading reading = SampleReadings.Film();
        reading.Evaluation.Spectra.TotalFraction[0] = 0.0001;
        reading.Evaluation.Spectra.HazePercent[0] = 5000;

        ChartModel chart = SpectralTransmittanceChart.Build(reading);

        Assert.True(chart.Panels[1].Y.Maximum < 10);
        Assert.Contains(chart.Notes, note => note.Contains("at 1 wavelength;", StringComparison.Ordinal));
    }

    [Fact]
    public void Build_ShortScan_NotesTheExtendedRange()
    {
        ChartModel chart = SpectralTransmittanceChart.Build(SampleReadings.Film());

        Assert.Contains(chart.Notes, note => note.Contains("360-380 nm", StringComparison.Ordinal));
    }

    [Fact]
    public void Build_Always_NamesSpecimenMethodAndSource()
    {
        ChartModel chart = SpectralTransmittanceChart.Build(SampleReadings.Film(specimen: "S9", roll: "R4"));

        Assert.Contains("S9", chart.Subtitle, StringComparison.Ordinal);
        Assert.Contains("R4", chart.Subtitle, StringComparison.Ordinal);
        string footer = string.Join(" ", chart.Footer);
        Assert.Contains("ASTM D1003 procedure B", footer, StringComparison.Ordinal);
        Assert.Contains("illuminant C, 2° observer", footer, StringComparison.Ordinal);
        Assert.Contains("interval 10 nm", footer, StringComparison.Ordinal);
        Assert.Contains("test sample", footer, StringComparison.Ordinal);
        Assert.Contains("2026-03-03 06:00 UTC", footer, StringComparison.Ordinal);
    }

    [Fact]
    public void Build_VisibleScan_NamesTheRegionsWithinItsRange()
    {
        PanelModel panel = SpectralTransmittanceChart.Build(SampleReadings.Film()).Panels[0];

        Assert.Equal(380, panel.Bands[0].From);
        Assert.Equal(780, panel.Bands[^1].To);
        Assert.All(panel.Bands.Zip(panel.Bands.Skip(1)), pair => Assert.Equal(pair.First.To, pair.Second.From));
        Assert.DoesNotContain(panel.Bands, band => band.Label == "ultraviolet");
    }
}
