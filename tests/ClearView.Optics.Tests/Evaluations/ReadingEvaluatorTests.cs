using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Tests.Generators;
using ClearView.Optics.Transmission;

using FsCheck.Xunit;

namespace ClearView.Optics.Tests.Evaluations;

public sealed class ReadingEvaluatorTests
{
    private static readonly Method Method = new(
        HazeStandard.AstmD1003ProcedureB,
        LightAndObserver.CDegree2,
        LightAndObserver.D65Degree10,
        [YellownessKind.AstmE313, YellownessKind.AstmD1925]);

    // Two routes to each number: the fast one in one pass, and the tables one by one.
    [Property(Replay = "(20240310,27)", MaxTest = 100, Arbitrary = [typeof(Cases)])]
    public void Evaluate_AgreesWithTheTablesOneByOne(TransmittanceSpectrum total, double seed)
    {
        ArgumentNullException.ThrowIfNull(total);
        double share = double.IsFinite(seed) ? Math.Abs(Math.Sin(seed)) : 0.5;
        TransmittanceSpectrum diffuse = TransmittanceSpectrum.FromFractions(total.Grid, [.. total.Fractions.ToArray().Select(value => value * share)]);
        var evaluator = new ReadingEvaluator(total.Grid, Method);

        ReadingValues values = evaluator.Evaluate(total.Fractions, diffuse.Fractions);

        WeightingTable luminous = WeightingTable.For(total.Grid, LightAndObserver.CDegree2);
        Tristimulus colour = WeightingTable.For(total.Grid, LightAndObserver.D65Degree10).Weigh(total);
        Assert.Equal(luminous.Weigh(total).Y / 100, values.LuminousTransmittance, 1e-12);
        Assert.Equal(luminous.Weigh(diffuse).Y / 100, values.DiffuseLuminousTransmittance, 1e-12);
        Assert.Equal(share, values.Haze, 1e-9);
        Assert.Equal(colour.X, values.Colour.X, 1e-10);
        Assert.Equal(colour.Y, values.Colour.Y, 1e-10);
        Assert.Equal(colour.Z, values.Colour.Z, 1e-10);
        Assert.Equal(YellownessIndex.E313(colour, E313Coefficients.D65Degree10).Value, values.YellownessE313, 1e-8);
        Assert.Equal(YellownessIndex.D1925(luminous.Weigh(total)).Value, values.YellownessD1925, 1e-8);
    }

    // Scaling total and diffuse together leaves haze and chromaticity as they are.
    [Property(Replay = "(20240311,29)", MaxTest = 100, Arbitrary = [typeof(Cases)])]
    public void Evaluate_BothSpectraHalved_KeepsHazeAndHalvesTransmittance(TransmittanceSpectrum total)
    {
        ArgumentNullException.ThrowIfNull(total);
        double[] whole = total.Fractions.ToArray();
        double[] diffuse = [.. whole.Select((value, i) => value * (0.1 + (0.01 * (i % 5))))];
        var evaluator = new ReadingEvaluator(total.Grid, Method);

        ReadingValues before = evaluator.Evaluate(whole, diffuse);
        ReadingValues after = evaluator.Evaluate([.. whole.Select(value => value / 2)], [.. diffuse.Select(value => value / 2)]);

        Assert.Equal(before.Haze, after.Haze, 1e-12);
        Assert.Equal(before.LuminousTransmittance / 2, after.LuminousTransmittance, 1e-12);
        Assert.Equal(before.YellownessE313, after.YellownessE313, 1e-9);
    }

    [Fact]
    public void Evaluate_OnTheHotPath_AllocatesNothing()
    {
        WavelengthGrid grid = WavelengthGrid.Between(380, 780, 5);
        var evaluator = new ReadingEvaluator(grid, Method);
        double[] total = [.. Enumerable.Repeat(0.9, grid.Count)];
        double[] diffuse = [.. Enumerable.Repeat(0.01, grid.Count)];
        double sum = evaluator.Evaluate(total, diffuse).Haze;

        long before = GC.GetAllocatedBytesForCurrentThread();
        for (int i = 0; i < 1000; i++)
        {
            sum += evaluator.Evaluate(total, diffuse).Haze;
        }

        long allocated = GC.GetAllocatedBytesForCurrentThread() - before;

        Assert.Equal(0, allocated);
        Assert.Equal(1001 * (0.01 / 0.9), sum, 1e-9);
    }

    [Fact]
    public void Evaluate_WithoutDiffuse_GivesNoHaze()
    {
        WavelengthGrid grid = WavelengthGrid.Between(400, 700, 10);

        ReadingValues values = new ReadingEvaluator(grid, Method).Evaluate([.. Enumerable.Repeat(0.9, grid.Count)], []);

        Assert.Equal(0.9, values.LuminousTransmittance, 1e-12);
        Assert.True(double.IsNaN(values.Haze));
        Assert.True(double.IsNaN(values.DiffuseLuminousTransmittance));
    }

    [Fact]
    public void Evaluate_OpaqueSpecimen_HasNeitherHazeNorYellowness()
    {
        WavelengthGrid grid = WavelengthGrid.Between(400, 700, 10);

        ReadingValues values = new ReadingEvaluator(grid, Method).Evaluate(new double[grid.Count], new double[grid.Count]);

        Assert.Equal(0, values.LuminousTransmittance);
        Assert.True(double.IsNaN(values.Haze));
        Assert.True(double.IsNaN(values.YellownessE313));
        Assert.Equal(0, values.Lab.L, 1e-12);
    }

    [Theory]
    [InlineData(30, 31)]
    [InlineData(32, 31)]
    [InlineData(31, 30)]
    [InlineData(31, 32)]
    public void Evaluate_WrongCount_IsRefused(int total, int diffuse)
    {
        var evaluator = new ReadingEvaluator(WavelengthGrid.Between(400, 700, 10), Method);

        Assert.Throws<ArgumentException>(() => evaluator.Evaluate(new double[total], new double[diffuse]));
    }

    [Fact]
    public void Constructor_GridShorterThan400To700Nm_IsRefusedWithWhatIsMissing()
    {
        SpectrumRangeException error = Assert.Throws<SpectrumRangeException>(() => new ReadingEvaluator(WavelengthGrid.Between(420, 680, 10), Method));

        Assert.Equal([new SpectralRange(400, 420), new SpectralRange(680, 700)], error.Missing);
        Assert.Contains("400-420 nm and 680-700 nm", error.Message, StringComparison.Ordinal);
    }
}
