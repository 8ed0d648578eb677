using ClearView.Optics.Spectra;

namespace ClearView.Optics.Tests.Spectra;

public sealed class LagrangeInterpolationTests
{
    private static readonly WavelengthGrid Fine = WavelengthGrid.Between(400, 700, 1);

    // By the theory of interpolation: the polynomial through four points is unique, so a cubic comes back as itself.
    [Theory]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(10)]
    [InlineData(20)]
    public void Resample_Cubic_IsReproducedBetweenInnerPoints(double intervalNm)
    {
        WavelengthGrid coarse = WavelengthGrid.Between(400, 700, intervalNm);
        WavelengthGrid inner = WavelengthGrid.Between(400 + intervalNm, 700 - intervalNm, 1);

        Spectrum resampled = LagrangeInterpolation.Resample(Sample(coarse, Cubic), inner);

        AssertFollows(Cubic, resampled);
    }

    [Fact]
    public void Resample_CubicOnIrregularGrid_IsReproducedBetweenInnerPoints()
    {
        WavelengthGrid irregular = WavelengthGrid.FromWavelengths([400, 407, 411, 430, 431.5, 460, 500, 533, 560, 591, 640.5, 688, 700]);

        Spectrum resampled = LagrangeInterpolation.Resample(Sample(irregular, Cubic), WavelengthGrid.Between(407, 688, 1));

        AssertFollows(Cubic, resampled);
    }

    // ASTM E2022: the first and the last interval take the quadratic through the three end points.
    [Fact]
    public void Resample_Quadratic_IsReproducedUpToBothEnds() =>
        AssertFollows(Quadratic, LagrangeInterpolation.Resample(Sample(WavelengthGrid.Between(400, 700, 20), Quadratic), Fine));

    [Fact]
    public void Resample_CubicInEndInterval_FollowsTheQuadraticThroughThreePoints()
    {
        Spectrum coarse = Sample(WavelengthGrid.Between(400, 700, 20), Cubic);

        Spectrum resampled = LagrangeInterpolation.Resample(coarse, WavelengthGrid.Between(410, 420, 10));

        // By hand: half-way through the first of three points h apart, the factors are 3/8, 6/8 and -1/8.
        Assert.Equal((0.375 * coarse[0]) + (0.75 * coarse[1]) - (0.125 * coarse[2]), resampled[0], 1e-12);
    }

    [Fact]
    public void Resample_HalfWayBetweenInnerPoints_UsesTheWellKnownFactors()
    {
        // By hand: half-way between the second and third of four points, the factors are -1/16, 9/16, 9/16, -1/16.
        var spectrum = new Spectrum(WavelengthGrid.Regular(400, 10, 4), [1, 0, 0, 0]);
        var other = new Spectrum(WavelengthGrid.Regular(400, 10, 4), [0, 1, 0, 0]);
        WavelengthGrid middle = WavelengthGrid.FromWavelengths([415, 416]);

        Assert.Equal(-0.0625, LagrangeInterpolation.Resample(spectrum, middle)[0], 1e-15);
        Assert.Equal(0.5625, LagrangeInterpolation.Resample(other, middle)[0], 1e-15);
    }

    [Fact]
    public void Resample_OutsideTheSpectrum_HoldsTheEndValue()
    {
        var spectrum = new Spectrum(WavelengthGrid.Regular(400, 10, 4), [1, 2, 4, 8]);

        Spectrum resampled = LagrangeInterpolation.Resample(spectrum, WavelengthGrid.FromWavelengths([380, 400, 430, 450]));

        Assert.Equal([1, 1, 8, 8], resampled.Values.ToArray());
    }

    [Fact]
    public void Resample_OnItsOwnGrid_GivesTheValuesBack()
    {
        Spectrum spectrum = Sample(WavelengthGrid.Between(400, 700, 20), Math.Sin);

        Assert.Equal(spectrum.Values.ToArray(), LagrangeInterpolation.Resample(spectrum, spectrum.Grid).Values.ToArray());
    }

    private static double Quadratic(double nm) => 0.3 + (0.7 * (nm - 550) / 150) - (0.4 * Math.Pow((nm - 550) / 150, 2));

    private static double Cubic(double nm) => Quadratic(nm) + (0.2 * Math.Pow((nm - 550) / 150, 3));

    private static Spectrum Sample(WavelengthGrid grid, Func<double, double> function) =>
        new(grid, [.. grid.WavelengthsNm.ToArray().Select(function)]);

    private static void AssertFollows(Func<double, double> function, Spectrum spectrum)
    {
        for (int i = 0; i < spectrum.Grid.Count; i++)
        {
            Assert.Equal(function(spectrum.Grid[i]), spectrum[i], 1e-12);
        }
    }
}
