using System.Globalization;
using System.Text.RegularExpressions;

using ClearView.Optics.Spectra;
using ClearView.Optics.Tests.Reference;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Thickness;

namespace ClearView.Optics.Tests.Documentation;

/// <summary>Computes the worked examples of docs/methods/thickness.md, which were derived by hand.</summary>
public sealed partial class ThicknessExampleTests
{
    [Fact]
    public void Pmma()
    {
        WorkedExample page = WorkedExample.Read("thickness.md", "pmma");

        foreach (int i in new[] { 1, 2 })
        {
            double n = Resin.Pmma.Index.At(page.Given($"wavelength_{i}"));
            page.Shows($"n_{i}", n);
            page.Shows($"R_{i}", InternalTransmittance.SurfaceReflectance(n));
            page.Shows($"T_{i}", 100 * InternalTransmittance.ToMeasured(1, n));
        }

        page.HasNoOtherFigures();
    }

    [Fact]
    public void TwiceAsThick()
    {
        WorkedExample page = WorkedExample.Read("thickness.md", "twice-as-thick");
        double n = page.Given("n");
        var scaling = new ThicknessScaling(new ConstantIndex(n, "by hand"), page.Given("measured"), page.Given("reference"));
        TransmittanceSpectrum Flat(string name) => TransmittanceSpectrum.FromPercents(
            WavelengthGrid.Regular(550, 10, 2), [page.Given(name), page.Given(name)]);

        page.Shows("R", InternalTransmittance.SurfaceReflectance(n));
        page.Shows("tau", InternalTransmittance.FromMeasured(page.Given("T") / 100, n));
        page.Shows("scaled", 100 * scaling.Scale(Flat("T")).Fractions[0]);
        page.Shows("scaled_haze", scaling.ScaleBulkHaze(Haze.FromPercent(page.Given("haze"))).Percent);
        page.Shows("refused_tau", 100 * InternalTransmittance.FromMeasured(page.Given("refused_T") / 100, n));
        Assert.Throws<UnphysicalTransmittanceException>(() => scaling.Scale(Flat("refused_T")));
        page.HasNoOtherFigures();
    }

    // The page's table of resins, row by row: the index at 589 nm from its figures.
    [Fact]
    public void Resins_AreThoseOfThePage()
    {
        string page = File.ReadAllText(RepositoryRoot.PathOf("docs/methods/thickness.md"));
        const double squareMicrometres = 0.589 * 0.589;
        (string, double)[] printed =
        [
            .. ResinRow().Matches(page).Select(row => (
                row.Groups["id"].Value,
                row.Groups["n"] is { Success: true } n
                    ? Number(n)
                    : Math.Sqrt(1 + (Number(row.Groups["b"]) * squareMicrometres / (squareMicrometres - Number(row.Groups["c"])))))),
        ];

        Assert.Equal(Resin.All.Select(resin => resin.Id), printed.Select(row => row.Item1));
        Assert.All(Resin.All.Zip(printed), pair => Assert.Equal(pair.Second.Item2, pair.First.Index.At(589), 1e-12));
    }

    private static double Number(Group group) => double.Parse(group.Value, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^\| [^|]+ \| `(?<id>[\w-]+)` \| (?:B = (?<b>[\d.]+), C = (?<c>[\d.]+)|(?<n>[\d.]+)) \|", RegexOptions.Multiline)]
    private static partial Regex ResinRow();
}
