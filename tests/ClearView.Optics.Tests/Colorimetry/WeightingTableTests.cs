using ClearView.Optics.Colorimetry;
using ClearView.Optics.Spectra;
using ClearView.Optics.Tests.Generators;
using ClearView.Optics.Tests.Reference;

using FsCheck.Xunit;

namespace ClearView.Optics.Tests.Colorimetry;

public sealed class WeightingTableTests
{
    // The library sums the products of its 10 nm tables and stops there; the tables here are those of ASTM E2022, from
    // 1 nm. The two white points already differ by 0.03 in X and 0.10 in Z, which is the method and not an error.
    private const double TenNanometreMethodTolerance = 0.15;

    private static readonly Illuminant[] Illuminants = [Illuminant.A, Illuminant.C, Illuminant.D65];

    public static TheoryData<string, string, string> GridsAndPairs()
    {
        TheoryData<string, string, string> rows = [];
        foreach (string grid in Grids.Keys)
        {
            foreach (Illuminant illuminant in Illuminant.All)
            {
                foreach (Observer observer in Observer.All)
                {
                    rows.Add(grid, illuminant.Name, observer.Name);
                }
            }
        }

        return rows;
    }

    private static Dictionary<string, WavelengthGrid> Grids { get; } = new(StringComparer.Ordinal)
    {
        ["360-780 at 1"] = WavelengthGrid.Between(360, 780, 1),
        ["300-830 at 1"] = WavelengthGrid.Between(300, 830, 1),
        ["380-780 at 2"] = WavelengthGrid.Between(380, 780, 2),
        ["380-780 at 5"] = WavelengthGrid.Between(380, 780, 5),
        ["360-780 at 10"] = WavelengthGrid.Between(360, 780, 10),
        ["400-700 at 10"] = WavelengthGrid.Between(400, 700, 10),
        ["400-700 at 20"] = WavelengthGrid.Between(400, 700, 20),
        ["380-780 at 50"] = WavelengthGrid.Between(380, 780, 50),
        ["390-710 at 3.2"] = WavelengthGrid.Between(390, 710, 3.2),
        ["irregular"] = WavelengthGrid.FromWavelengths([390, 402, 431.5, 450, 481, 520, 555, 590, 612.3, 660, 700, 740]),
    };

    [Theory]
    [MemberData(nameof(GridsAndPairs))]
    public void Weigh_PerfectTransmitter_IsWhiteOnEveryGrid(string grid, string illuminant, string observer)
    {
        WeightingTable table = WeightingTable.For(Grids[grid], Pair(illuminant, observer));
        TransmittanceSpectrum perfect = TransmittanceSpectrum.FromFractions(table.Grid, [.. Enumerable.Repeat(1.0, table.Grid.Count)]);

        Tristimulus colour = table.Weigh(perfect);
        var lab = CieLab.From(colour, table.White);

        Assert.Equal(100, colour.Y, 1e-9);
        Assert.Equal(0, lab.A, 1e-9);
        Assert.Equal(0, lab.B, 1e-9);
    }

    // ASTM E2022: the weights of a coarse grid are the 1 nm sum of the interpolated spectrum, rearranged.
    [Theory]
    [MemberData(nameof(GridsAndPairs))]
    public void Weigh_IsTheOneNanometreSumOfTheInterpolatedSpectrum(string grid, string illuminant, string observer)
    {
        LightAndObserver pair = Pair(illuminant, observer);
        WavelengthGrid fine = pair.Illuminant.RelativePower.Grid;
        double[] values = [.. Grids[grid].WavelengthsNm.ToArray().Select(Film)];
        Spectrum interpolated = LagrangeInterpolation.Resample(new Spectrum(Grids[grid], values), fine);
        double[] sums = new double[4];
        for (int i = 0; i < fine.Count; i++)
        {
            double power = pair.Illuminant.RelativePower[i];
            sums[0] += power * pair.Observer.XBar[i] * interpolated[i];
            sums[1] += power * pair.Observer.YBar[i] * interpolated[i];
            sums[2] += power * pair.Observer.ZBar[i] * interpolated[i];
            sums[3] += power * pair.Observer.YBar[i];
        }

        Tristimulus colour = WeightingTable.For(Grids[grid], pair).Weigh(TransmittanceSpectrum.FromFractions(Grids[grid], values));

        Assert.Equal(100 * sums[0] / sums[3], colour.X, 1e-10);
        Assert.Equal(100 * sums[1] / sums[3], colour.Y, 1e-10);
        Assert.Equal(100 * sums[2] / sums[3], colour.Z, 1e-10);
    }

    // tests/tools/reference_tristimulus.py: the same standards written a second time, in another language, from the
    // tables of colord-data, with other means (linear systems instead of products).
    [Fact]
    public void Weigh_AgreesWithAnIndependentProgram()
    {
        (WavelengthGrid Grid, LightAndObserver Pair)[] cases =
            [.. from grid in Grids.Values from illuminant in Illuminants from observer in Observer.All select (grid, new LightAndObserver(illuminant, observer))];

        double[][] expected = ReferenceProgram.Ask(
            "reference_tristimulus.py",
            "spectra",
            cases.Select(one => new
            {
                wavelengths = one.Grid.WavelengthsNm.ToArray(),
                values = one.Grid.WavelengthsNm.ToArray().Select(Film).ToArray(),
                observer = one.Pair.Observer.Name.TrimEnd('°'),
                illuminant = one.Pair.Illuminant.Name,
            }));

        foreach (((WavelengthGrid grid, LightAndObserver pair), double[] xyz) in cases.Zip(expected))
        {
            double[] values = [.. grid.WavelengthsNm.ToArray().Select(Film)];
            Tristimulus colour = WeightingTable.For(grid, pair).Weigh(TransmittanceSpectrum.FromFractions(grid, values));
            // The program takes A from its 1 nm table, here it comes from every fifth figure: both are rounded to six
            // figures, a share of 5e-6 at most. All else agrees to the rounding of the arithmetic.
            double tolerance = pair.Illuminant == Illuminant.A ? 100 * 5e-6 : 1e-9;
            Assert.Equal(xyz[0], colour.X, tolerance);
            Assert.Equal(xyz[1], colour.Y, tolerance);
            Assert.Equal(xyz[2], colour.Z, tolerance);
        }
    }

    [Fact]
    public void Weigh_At10Nm_AgreesWithColormathWithinWhatItsMethodAllows()
    {
        WavelengthGrid grid = WavelengthGrid.Between(340, 830, 10);
        double[] values = [.. grid.WavelengthsNm.ToArray().Select(Film)];
        LightAndObserver[] pairs = [LightAndObserver.CDegree2, LightAndObserver.ADegree2, LightAndObserver.D65Degree2, LightAndObserver.D65Degree10];

        double[][] expected = ReferenceProgram.Ask(
            "reference_colormath.py",
            "spectra",
            pairs.Select(pair => new { values, observer = pair.Observer.Name.TrimEnd('°'), illuminant = pair.Illuminant.Name.ToLowerInvariant() }));

        foreach ((LightAndObserver pair, double[] xyz) in pairs.Zip(expected))
        {
            Tristimulus colour = WeightingTable.For(grid, pair).Weigh(TransmittanceSpectrum.FromFractions(grid, values));
            Assert.Equal(xyz[0], colour.X, TenNanometreMethodTolerance);
            Assert.Equal(xyz[1], colour.Y, TenNanometreMethodTolerance);
            Assert.Equal(xyz[2], colour.Z, TenNanometreMethodTolerance);
        }
    }

    [Property(Replay = "(20240229,7)", MaxTest = 100, Arbitrary = [typeof(Cases)])]
    public void Weigh_IsProportionalToTheSpectrum(TransmittanceSpectrum spectrum)
    {
        WeightingTable table = WeightingTable.For(spectrum.Grid, LightAndObserver.D65Degree10);
        TransmittanceSpectrum half = TransmittanceSpectrum.FromFractions(spectrum.Grid, [.. spectrum.Fractions.ToArray().Select(value => value / 2)]);

        Tristimulus whole = table.Weigh(spectrum);
        Tristimulus halved = table.Weigh(half);

        Assert.Equal(whole.X / 2, halved.X, 1e-10);
        Assert.Equal(whole.Y / 2, halved.Y, 1e-10);
        Assert.Equal(whole.Z / 2, halved.Z, 1e-10);
    }

    // Lagrange weights may be negative at the ends of the visible range, so that order holds at 1 nm only.
    [Property(Replay = "(20240301,9)", MaxTest = 50, Arbitrary = [typeof(Cases)])]
    public void Weigh_At1Nm_KeepsTheOrderOfSpectra(TransmittanceSpectrum spectrum)
    {
        WavelengthGrid grid = WavelengthGrid.Between(360, 780, 1);
        double[] lower = [.. Enumerable.Range(0, grid.Count).Select(i => spectrum.Fractions[i % spectrum.Grid.Count])];
        double[] higher = [.. lower.Select((value, i) => value + (0.01 * (i % 7)))];
        WeightingTable table = WeightingTable.For(grid, LightAndObserver.CDegree2);

        Tristimulus below = table.Weigh(TransmittanceSpectrum.FromFractions(grid, lower));
        Tristimulus above = table.Weigh(TransmittanceSpectrum.FromFractions(grid, higher));

        Assert.True(below.X < above.X && below.Y < above.Y && below.Z < above.Z);
    }

    // ASTM E308: where the spectrum ends short of 360 or 780 nm, its end value stands for what is missing.
    [Fact]
    public void For_ShortGrid_SaysWhatItExtended()
    {
        WeightingTable table = WeightingTable.For(WavelengthGrid.Between(380, 760, 10), LightAndObserver.CDegree2);

        Assert.Equal([new SpectralRange(360, 380), new SpectralRange(760, 780)], table.Extension);
    }

    [Fact]
    public void For_FullGrid_ExtendsNothing() =>
        Assert.Empty(WeightingTable.For(WavelengthGrid.Between(360, 780, 20), LightAndObserver.CDegree2).Extension);

    [Theory]
    [InlineData(400, 700, true)]
    [InlineData(410, 700, false)]
    [InlineData(400, 690, false)]
    public void For_GridShorterThan400To700Nm_IsRefused(double firstNm, double lastNm, bool accepted)
    {
        WavelengthGrid grid = WavelengthGrid.Between(firstNm, lastNm, 10);

        if (accepted)
        {
            Assert.Equal(grid, WeightingTable.For(grid, LightAndObserver.CDegree2).Grid);
        }
        else
        {
            Assert.NotEmpty(Assert.Throws<SpectrumRangeException>(() => WeightingTable.For(grid, LightAndObserver.CDegree2)).Missing);
        }
    }

    [Fact]
    public void For_SameGridAndPair_IsComputedOnce() =>
        Assert.Same(
            WeightingTable.For(WavelengthGrid.Between(380, 780, 5), LightAndObserver.CDegree2),
            WeightingTable.For(WavelengthGrid.FromWavelengths(WavelengthGrid.Between(380, 780, 5).WavelengthsNm), LightAndObserver.CDegree2));

    [Fact]
    public void Weigh_SpectrumOnAnotherGrid_IsRefused()
    {
        WeightingTable table = WeightingTable.For(WavelengthGrid.Between(380, 780, 5), LightAndObserver.CDegree2);

        Assert.Throws<ArgumentException>(() => table.Weigh(TransmittanceSpectrum.FromFractions(WavelengthGrid.Between(380, 780, 10), new double[41])));
    }

    // A film as one could meet it: an absorption edge in the violet, a plateau and a weak band in the red.
    private static double Film(double nm) =>
        (0.91 / (1 + Math.Exp((395 - nm) / 9))) - (0.08 * Math.Exp(-Math.Pow((nm - 640) / 35, 2)));

    private static LightAndObserver Pair(string illuminant, string observer)
    {
        Assert.True(Illuminant.TryFind(illuminant, out Illuminant? light));
        return new LightAndObserver(light, Observer.All.Single(one => one.Name == observer));
    }
}
