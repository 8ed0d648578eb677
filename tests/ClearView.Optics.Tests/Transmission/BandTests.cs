using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Scattering;

namespace ClearView.Optics.Tests.Transmission;

public class BandTests
{
    // By hand: T = (λ − 300)/200 from 300 to 500 nm; over 350-450 nm the mean is 0.5, the greatest 0.75 at 450 nm.
    [Theory]
    [InlineData(10)]
    [InlineData(20)]
    [InlineData(40)]
    public void BandTransmittance_OfAStraightLine_IsExactOnEveryGrid(double intervalNm)
    {
        BandTransmittance band = BandTransmittance.Of(Line(intervalNm), Band.Between(350, 450));

        Assert.Equal(0.5, band.MeanFraction, 1e-12);
        Assert.Equal(0.75, band.MaximumFraction, 1e-12);
        Assert.Equal(450, band.MaximumAtNm);
    }

    [Fact]
    public void Edge_OfAStraightLine_IsExact()
    {
        Assert.Equal(320, EdgeWavelength.Find(Line(40), 0.1).WavelengthNm!.Value, 1e-9);
        Assert.Equal(400, EdgeWavelength.Find(Line(40), 0.5).WavelengthNm!.Value, 1e-9);
    }

    [Fact]
    public void LightBarrier_OnAScanThatStartsTooLate_IsRefusedWithWhatIsMissing()
    {
        var missing = Assert.Throws<SpectrumRangeException>(() => LightBarrierScreen.Of(Line(10), 0.1));

        Assert.Equal([new SpectralRange(290, 300)], missing.Missing);
    }

    [Theory]
    [InlineData(0.1, true)]
    [InlineData(0.0999999, false)]
    public void LightBarrier_AtItsLimit_IsWithin(double limit, bool expected)
    {
        WavelengthGrid grid = WavelengthGrid.Between(290, 450, 20);
        TransmittanceSpectrum wall = TransmittanceSpectrum.FromFractions(grid, [0, 0, 0, 0, 0, 0, 0.02, 0.05, 0.1]);

        Assert.Equal(expected, LightBarrierScreen.Of(wall, limit).IsWithinLimit);
    }

    // H ∝ λ^−n by construction: the fit must give n back, without error.
    [Theory]
    [InlineData(4)]
    [InlineData(1.7)]
    [InlineData(0)]
    public void ScatteringExponent_OfAPowerLaw_IsItsExponent(double exponent)
    {
        WavelengthGrid grid = WavelengthGrid.Between(380, 780, 5);
        double[] total = [.. Enumerable.Repeat(0.9, grid.Count)];
        double[] diffuse = [.. grid.WavelengthsNm.ToArray().Select(nm => 0.9 * 0.02 * Math.Pow(nm / 550, -exponent))];

        ScatteringExponent fit = ScatteringExponent.Fit(new TransmittanceScans(
            TransmittanceSpectrum.FromFractions(grid, total), TransmittanceSpectrum.FromFractions(grid, diffuse)))!.Value;

        Assert.Equal(exponent, fit.Exponent, 1e-10);
        Assert.Equal(0, fit.StandardError, 1e-7);
    }

    private static TransmittanceSpectrum Line(double intervalNm)
    {
        WavelengthGrid grid = WavelengthGrid.Between(300, 500, intervalNm);
        return TransmittanceSpectrum.FromFractions(grid, [.. grid.WavelengthsNm.ToArray().Select(nm => (nm - 300) / 200)]);
    }
}
