using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Tests.Transmission;

public sealed class TransmittanceScansTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Regular(500, 10, 3);

    [Fact]
    public void RegularAndSpectralHaze_ByHand()
    {
        var scans = new TransmittanceScans(Spectrum(0.9, 0.8, 0), Spectrum(0.09, 0.02, 0.001));

        Assert.Equal([0.81, 0.78, -0.001], scans.RegularFractions().Select(value => Math.Round(value, 12)));
        double[] haze = scans.SpectralHazePercents();
        Assert.Equal(10, haze[0], 1e-12);
        Assert.Equal(2.5, haze[1], 1e-12);
        Assert.True(double.IsNaN(haze[2]), "Haze is undefined where no light passes.");
    }

    [Fact]
    public void DiffuseNotMeasured_HasNeitherRegularNorHaze()
    {
        var scans = new TransmittanceScans(Spectrum(0.9, 0.8, 0.7), null);

        Assert.Empty(scans.RegularFractions());
        Assert.Empty(scans.SpectralHazePercents());
    }

    [Fact]
    public void Constructor_AnotherGrid_IsRefused() =>
        Assert.Throws<ArgumentException>(() => new TransmittanceScans(
            Spectrum(0.9, 0.8, 0.7), TransmittanceSpectrum.FromFractions(WavelengthGrid.Regular(500, 5, 3), [0, 0, 0])));

    private static TransmittanceSpectrum Spectrum(params double[] fractions) => TransmittanceSpectrum.FromFractions(Grid, fractions);
}
