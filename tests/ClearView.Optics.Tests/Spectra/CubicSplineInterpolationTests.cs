using ClearView.Optics.Spectra;
using ClearView.Optics.Tests.Reference;

namespace ClearView.Optics.Tests.Spectra;

public sealed class CubicSplineInterpolationTests
{
    [Fact]
    public void Resample_AgreesWithScipy()
    {
        double[] nodes = [400, 410, 425, 430, 460, 500, 540, 560, 610, 660, 700];
        double[] values = [0.12, 0.35, 0.61, 0.66, 0.83, 0.88, 0.9, 0.89, 0.905, 0.91, 0.907];
        WavelengthGrid target = WavelengthGrid.Between(400, 700, 2.5);

        double[] expected = ReferenceProgram.Ask(
            "reference_skimage.py", "natural_spline", [new { x = nodes, y = values, at = target.WavelengthsNm.ToArray() }])[0];
        Spectrum resampled = CubicSplineInterpolation.Resample(new Spectrum(WavelengthGrid.FromWavelengths(nodes), values), target);

        for (int i = 0; i < expected.Length; i++)
        {
            Assert.Equal(expected[i], resampled[i], 1e-12);
        }
    }

    [Theory]
    [InlineData(399, 500)]
    [InlineData(500, 701)]
    public void Resample_OutsideTheSpectrum_IsRefused(double firstNm, double lastNm)
    {
        var spectrum = new Spectrum(WavelengthGrid.Between(400, 700, 10), new double[31]);

        Assert.Throws<ArgumentOutOfRangeException>(
            () => CubicSplineInterpolation.Resample(spectrum, WavelengthGrid.Between(firstNm, lastNm, 1)));
    }
}
