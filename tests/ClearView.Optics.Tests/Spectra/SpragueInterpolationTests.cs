using ClearView.Optics.Spectra;

namespace ClearView.Optics.Tests.Spectra;

public sealed class SpragueInterpolationTests
{
    private static readonly WavelengthGrid Coarse = WavelengthGrid.Between(400, 700, 10);

    // CIE 167: the interpolating polynomial takes its derivatives at the nodes from the quartics through five points, so
    // that a quartic comes back exactly wherever all six points are measured ones.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Resample_PolynomialUpToTheFourthDegree_IsReproducedBetweenInnerPoints(int degree)
    {
        double Power(double nm) => Math.Pow((nm - 550) / 150, degree);

        AssertFollows(Power, SpragueInterpolation.Resample(Sample(Coarse, Power), WavelengthGrid.Between(420, 680, 1)));
    }

    // The points that CIE 167 adds beyond the ends continue a straight line (its printed factors sum to 1, and their first
    // moments are -1 and -2), but no curve.
    [Fact]
    public void Resample_StraightLine_IsReproducedUpToBothEnds()
    {
        static double Line(double nm) => 0.2 + (0.001 * nm);

        AssertFollows(Line, SpragueInterpolation.Resample(Sample(Coarse, Line), WavelengthGrid.Between(400, 700, 1)));
    }

    // Another way to the same polynomial, written down independently: see tests/tools/reference_tristimulus.py, which
    // solves Sprague's six conditions as a linear system. Here: value and slope join smoothly at the nodes.
    [Fact]
    public void Resample_AtANode_GivesTheNodeAndJoinsWithoutAKink()
    {
        Spectrum spectrum = Sample(Coarse, nm => Math.Sin(nm / 20));
        const double step = 1e-4;

        Spectrum near = SpragueInterpolation.Resample(spectrum, WavelengthGrid.FromWavelengths([550 - step, 550, 550 + step]));

        Assert.Equal(Math.Sin(550.0 / 20), near[1], 1e-14);
        Assert.Equal((near[1] - near[0]) / step, (near[2] - near[1]) / step, 1e-5);
    }

    [Fact]
    public void Resample_IrregularSpectrum_IsRefused() =>
        Assert.Throws<ArgumentException>(() => SpragueInterpolation.Resample(
            new Spectrum(WavelengthGrid.FromWavelengths([400, 410, 425, 430, 440, 450, 460]), new double[7]), Coarse));

    [Theory]
    [InlineData(5, false)]
    [InlineData(6, true)]
    public void Resample_NeedsSixValues(int count, bool accepted)
    {
        var spectrum = new Spectrum(WavelengthGrid.Regular(400, 10, count), new double[count]);
        WavelengthGrid target = WavelengthGrid.FromWavelengths([405, 415]);

        if (accepted)
        {
            Assert.Equal([0, 0], SpragueInterpolation.Resample(spectrum, target).Values.ToArray());
        }
        else
        {
            Assert.Throws<ArgumentException>(() => SpragueInterpolation.Resample(spectrum, target));
        }
    }

    [Theory]
    [InlineData(399, 500)]
    [InlineData(500, 701)]
    public void Resample_OutsideTheSpectrum_IsRefused(double firstNm, double lastNm) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => SpragueInterpolation.Resample(
            new Spectrum(Coarse, new double[Coarse.Count]), WavelengthGrid.Between(firstNm, lastNm, 1)));

    private static void AssertFollows(Func<double, double> function, Spectrum spectrum)
    {
        for (int i = 0; i < spectrum.Grid.Count; i++)
        {
            Assert.Equal(function(spectrum.Grid[i]), spectrum[i], 1e-12);
        }
    }

    private static Spectrum Sample(WavelengthGrid grid, Func<double, double> function) =>
        new(grid, [.. grid.WavelengthsNm.ToArray().Select(function)]);
}
