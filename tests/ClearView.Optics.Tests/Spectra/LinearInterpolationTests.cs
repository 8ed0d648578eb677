using ClearView.Optics.Spectra;

namespace ClearView.Optics.Tests.Spectra;

public sealed class LinearInterpolationTests
{
    [Fact]
    public void Resample_BetweenPoints_DividesInProportion()
    {
        var spectrum = new Spectrum(WavelengthGrid.FromWavelengths([400, 410, 430]), [1, 3, 7]);

        Spectrum resampled = LinearInterpolation.Resample(spectrum, WavelengthGrid.FromWavelengths([400, 402.5, 410, 425, 430]));

        // By hand.
        Assert.Equal([1, 1.5, 3, 6, 7], resampled.Values.ToArray());
    }

    [Theory]
    [InlineData(399, 500)]
    [InlineData(500, 701)]
    public void Resample_OutsideTheSpectrum_IsRefused(double firstNm, double lastNm)
    {
        var spectrum = new Spectrum(WavelengthGrid.Between(400, 700, 10), new double[31]);

        Assert.Throws<ArgumentOutOfRangeException>(
            () => LinearInterpolation.Resample(spectrum, WavelengthGrid.Between(firstNm, lastNm, 1)));
    }
}
