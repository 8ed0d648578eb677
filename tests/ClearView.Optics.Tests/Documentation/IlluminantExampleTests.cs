using System.Globalization;
using System.Text.RegularExpressions;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Spectra;
using ClearView.Optics.Tests.Reference;

namespace ClearView.Optics.Tests.Documentation;

/// <summary>Computes the worked examples of docs/methods/illuminants-and-observers.md, which were derived by hand or by a second program.</summary>
public sealed partial class IlluminantExampleTests
{
    [Fact]
    public void Daylight()
    {
        WorkedExample page = WorkedExample.Read("illuminants-and-observers.md", "daylight");
        var light = Illuminant.Daylight(page.Given("T"));
        double s400 = At(light, 400);
        double s700 = At(light, 700);

        page.Shows("S_400", s400);
        page.Shows("S_700", s700);

        // The factors, solved from the two sums that they went into.
        double a = page.Given("S1_400");
        double b = page.Given("S2_400");
        double c = page.Given("S1_700");
        double d = page.Given("S2_700");
        double u = s400 - page.Given("S0_400");
        double v = s700 - page.Given("S0_700");
        page.Shows("M1", ((u * d) - (b * v)) / ((a * d) - (b * c)));
        page.Shows("M2", ((a * v) - (u * c)) / ((a * d) - (b * c)));

        Chromaticity white = WhitePoint.Of(new LightAndObserver(light, Observer.Cie1931Degree2)).ToChromaticity();
        page.Shows("xD", white.X);
        page.Shows("yD", white.Y);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Planckian()
    {
        WorkedExample page = WorkedExample.Read("illuminants-and-observers.md", "planckian");
        var light = Illuminant.Planckian(page.Given("T"));

        page.Shows("S_400", At(light, 400));
        page.Shows("S_700", At(light, 700));
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Lagrange()
    {
        WorkedExample page = WorkedExample.Read("illuminants-and-observers.md", "lagrange");
        var coefficients = new double[4];

        int first = LagrangeInterpolation.Coefficients(WavelengthGrid.Between(360, 780, 10), page.Given("wavelength"), coefficients, out int count);

        Assert.Equal((4, 4), (first, count));
        page.Shows("at_400", coefficients[0]);
        page.Shows("at_410", coefficients[1]);
        page.Shows("at_420", coefficients[2]);
        page.Shows("at_430", coefficients[3]);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void OutsideWeights()
    {
        WorkedExample page = WorkedExample.Read("illuminants-and-observers.md", "outside-weights");

        foreach ((string name, LightAndObserver pair) in new[] { ("C", LightAndObserver.CDegree2), ("D65", LightAndObserver.D65Degree2) })
        {
            page.Shows($"{name}_X", OutsidePercent(pair, pair.Observer.XBar));
            page.Shows($"{name}_Y", OutsidePercent(pair, pair.Observer.YBar));
            page.Shows($"{name}_Z", OutsidePercent(pair, pair.Observer.ZBar));
        }

        page.HasNoOtherFigures();
    }

    // The page's table of ASTM E308's white points, row by row, within what the page says.
    [Fact]
    public void WhitePoints_AreMetAsFarAsThePageSays()
    {
        string page = File.ReadAllText(RepositoryRoot.PathOf("docs/methods/illuminants-and-observers.md"));
        Match[] rows = [.. WhitePointRow().Matches(page).AsEnumerable()];

        Assert.Equal(12, rows.Length);
        foreach (Match row in rows)
        {
            string light = row.Groups["light"].Value;
            double tolerance = light switch { "D50" => 0.015, "D55" => 0.02, "D75" => 0.03, _ => 0.005 };
            Assert.True(Illuminant.TryFind(light, out Illuminant? illuminant));
            Tristimulus white = WhitePoint.Of(new LightAndObserver(illuminant, Observer.All.Single(one => one.Name == row.Groups["observer"].Value)));

            Assert.Equal(double.Parse(row.Groups["x"].Value, CultureInfo.InvariantCulture), white.X, tolerance);
            Assert.Equal(double.Parse(row.Groups["z"].Value, CultureInfo.InvariantCulture), white.Z, tolerance);
        }
    }

    private static double At(Illuminant light, double nm) => LinearInterpolation.At(light.RelativePower, nm);

    private static double OutsidePercent(LightAndObserver pair, Spectrum matching)
    {
        Spectrum power = pair.Illuminant.RelativePower;
        double outside = 0;
        double sum = 0;
        for (int i = 0; i < power.Grid.Count; i++)
        {
            double weight = power[i] * matching[i];
            outside += power.Grid[i] is < 400 or > 700 ? weight : 0;
            sum += weight;
        }

        return 100 * outside / sum;
    }

    [GeneratedRegex(@"^\| (?<light>\w+), (?<observer>\d+°) \| (?<x>[\d.]+) \| (?<z>[\d.]+) \|$", RegexOptions.Multiline)]
    private static partial Regex WhitePointRow();
}
