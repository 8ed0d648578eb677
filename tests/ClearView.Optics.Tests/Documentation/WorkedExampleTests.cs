using System.Globalization;
using System.Text.RegularExpressions;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Tests.Reference;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Tests.Documentation;

/// <summary>Computes the worked examples on haze, transmittance, colour and yellowness, which were derived by hand.</summary>
public sealed partial class WorkedExampleTests
{
    [Fact]
    public void Haze_Hazemeter()
    {
        WorkedExample page = WorkedExample.Read("haze.md", "hazemeter");

        Evaluation evaluation = Evaluator.Evaluate(
            HazemeterReadings.Create(page.Given("T1"), page.Given("T2"), page.Given("T3"), page.Given("T4")),
            new Method(HazeStandard.AstmD1003ProcedureA, LightAndObserver.CDegree2, LightAndObserver.CDegree2, []));

        page.Shows("Tt", evaluation.LuminousTransmittance.Percent);
        page.Shows("Td", evaluation.DiffuseLuminousTransmittance!.Value.Percent);
        page.Shows("H", evaluation.Haze!.Value.Percent);
        page.HasNoOtherFigures();
    }

    // On every interval: Lagrange interpolation gives straight lines back.
    [Theory]
    [InlineData(1)]
    [InlineData(5)]
    [InlineData(10)]
    [InlineData(20)]
    public void Haze_Spectrum(double intervalNm)
    {
        WorkedExample page = WorkedExample.Read("haze.md", "spectral-haze");
        var grid = WavelengthGrid.Between(360, 780, intervalNm);

        Evaluation evaluation = Evaluator.Evaluate(
            new TransmittanceScans(
                Line(grid, page.Given("total_at_560"), page.Given("total_slope")),
                Line(grid, page.Given("diffuse_at_560"), page.Given("diffuse_slope"))),
            new Method(HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.CDegree2, []));

        page.Shows("centroid", Centroid(LightAndObserver.CDegree2));
        page.Shows("Yt", evaluation.LuminousTransmittance.Percent);
        page.Shows("Yd", evaluation.DiffuseLuminousTransmittance!.Value.Percent);
        page.Shows("H", evaluation.Haze!.Value.Percent);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Transmittance_Readings()
    {
        WorkedExample page = WorkedExample.Read("transmittance.md", "readings");
        var grid = WavelengthGrid.Regular(550, 10, 2);
        Spectrum Both(string name) => new(grid, [page.Given(name), page.Given(name)]);

        TransmittanceScans scans = new SphereReadings(Both("T1"), Both("T2"), Both("T3"), Both("T4")).Reduce();

        page.Shows("Tt", scans.Total.ToPercents()[0]);
        page.Shows("Td", scans.Diffuse!.ToPercents()[0]);
        page.Shows("Tr", 100 * scans.RegularFractions()[0]);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Transmittance_Luminous()
    {
        WorkedExample page = WorkedExample.Read("transmittance.md", "luminous");
        var grid = WavelengthGrid.Between(360, 780, 10);

        Evaluation evaluation = Evaluator.Evaluate(
            new TransmittanceScans(Line(grid, page.Given("total_at_560"), page.Given("total_slope")), null),
            new Method(HazeStandard.Iso14782WithIso13468Part2, LightAndObserver.D65Degree2, LightAndObserver.D65Degree2, []));

        page.Shows("centroid", Centroid(LightAndObserver.D65Degree2));
        page.Shows("tau", evaluation.LuminousTransmittance.Percent);
        page.HasNoOtherFigures();
    }

    // The same figures by the other standard's own expression, which the code does not use.
    [Fact]
    public void Haze_IsoForm()
    {
        WorkedExample page = WorkedExample.Read("haze.md", "iso-form");
        double t1 = page.Given("T1");
        double t2 = page.Given("T2");
        double t3 = page.Given("T3");
        double t4 = page.Given("T4");

        Evaluation evaluation = Evaluator.Evaluate(
            HazemeterReadings.Create(t1, t2, t3, t4),
            new Method(HazeStandard.Iso14782WithIso13468Part1, LightAndObserver.D65Degree2, LightAndObserver.D65Degree2, []));

        page.Shows("first", t4 / t2);
        page.Shows("second", t3 / t1);
        page.Shows("H", evaluation.Haze!.Value.Percent);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Yellowness()
    {
        WorkedExample page = WorkedExample.Read("yellowness.md", "yellowness");
        var colour = new Tristimulus(page.Given("X"), page.Given("Y"), page.Given("Z"));

        page.Shows("E313", YellownessIndex.E313(colour, E313Coefficients.CDegree2).Value);
        page.Shows("D1925", YellownessIndex.D1925(colour).Value);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Colour_Cielab()
    {
        WorkedExample page = WorkedExample.Read("colour.md", "cielab");
        var white = new Tristimulus(page.Given("Xn"), page.Given("Yn"), page.Given("Zn"));
        var one = CieLab.From(new Tristimulus(page.Given("X"), page.Given("Y"), page.Given("Z")), white);
        var other = CieLab.From(new Tristimulus(page.Given("X2"), page.Given("Y2"), page.Given("Z2")), white);

        page.Shows("L", one.L);
        page.Shows("a", one.A);
        page.Shows("b", one.B);
        page.Shows("C", one.Chroma);
        page.Shows("h", one.HueDegrees);
        page.Shows("L2", other.L);
        page.Shows("a2", other.A);
        page.Shows("b2", other.B);
        page.Shows("dE", ColourDifference.DeltaEab(one, other));
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Colour_Chromaticity()
    {
        WorkedExample page = WorkedExample.Read("colour.md", "chromaticity");
        var colour = new Tristimulus(page.Given("X"), page.Given("Y"), page.Given("Z"));

        page.Shows("x", colour.ToChromaticity().X);
        page.Shows("y", colour.ToChromaticity().Y);
        page.Shows("u", colour.ToUniformChromaticity().U);
        page.Shows("v", colour.ToUniformChromaticity().V);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Colour_DominantWavelength()
    {
        WorkedExample page = WorkedExample.Read("colour.md", "dominant-wavelength");
        double x = page.Given("x");
        double y = page.Given("y");

        DominantWavelength found = DominantWavelength.Find(
            new Tristimulus(x, y, 1 - x - y), WhitePoint.Of(LightAndObserver.CDegree2), Observer.Cie1931Degree2)!.Value;

        page.Shows("wavelength", found.WavelengthNm);
        page.Shows("purity", 100 * found.ExcitationPurity);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Colour_ComplementaryWavelength()
    {
        WorkedExample page = WorkedExample.Read("colour.md", "complementary-wavelength");
        double x = page.Given("x");
        double y = page.Given("y");

        DominantWavelength found = DominantWavelength.Find(
            new Tristimulus(x, y, 1 - x - y), WhitePoint.Of(LightAndObserver.CDegree2), Observer.Cie1931Degree2)!.Value;

        Assert.True(found.IsComplementary);
        page.Shows("wavelength", found.WavelengthNm);
        page.Shows("purity", 100 * found.ExcitationPurity);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Colour_Cieluv()
    {
        WorkedExample page = WorkedExample.Read("colour.md", "cieluv");
        var white = new Tristimulus(page.Given("Xn"), page.Given("Yn"), page.Given("Zn"));
        var colour = CieLuv.From(new Tristimulus(page.Given("X"), page.Given("Y"), page.Given("Z")), white);

        page.Shows("un", white.ToUniformChromaticity().U);
        page.Shows("vn", white.ToUniformChromaticity().V);
        page.Shows("L", colour.L);
        page.Shows("u", colour.U);
        page.Shows("v", colour.V);
        page.Shows("C", colour.Chroma);
        page.Shows("h", colour.HueDegrees);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Colour_ScreenPreview()
    {
        WorkedExample page = WorkedExample.Read("colour.md", "screen-preview");

        var screen = ScreenColour.From(
            new Tristimulus(page.Given("X"), page.Given("Y"), page.Given("Z")), WhitePoint.Of(LightAndObserver.D65Degree2));

        page.Shows("red", screen.Red);
        page.Shows("green", screen.Green);
        page.Shows("blue", screen.Blue);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Yellowness_PerfectTransmitter()
    {
        WorkedExample page = WorkedExample.Read("yellowness.md", "perfect-transmitter");

        foreach (E313Coefficients coefficients in E313Coefficients.All)
        {
            LightAndObserver pair = coefficients.LightAndObserver;
            page.Shows($"{pair.Illuminant.Name}_{pair.Observer.Name.TrimEnd('°')}", YellownessIndex.E313(WhitePoint.Of(pair), coefficients).Value);
        }

        page.HasNoOtherFigures();
    }

    [Fact]
    public void Yellowness_Change()
    {
        WorkedExample page = WorkedExample.Read("yellowness.md", "change-in-yellowness");
        LightAndObserver pair = LightAndObserver.CDegree2;
        var method = new Method(HazeStandard.AstmD1003ProcedureB, pair, pair, [YellownessKind.AstmE313, YellownessKind.Iso17223])
        {
            InitialYellownessIndex = page.Given("initial"),
        };

        Evaluation evaluation = Evaluator.Evaluate(
            new TransmittanceScans(Line(WavelengthGrid.Between(360, 780, 10), page.Given("total_at_560"), page.Given("total_slope")), null), method);

        page.Shows("centroid_X", Centroid(pair, pair.Observer.XBar));
        page.Shows("centroid_Y", Centroid(pair, pair.Observer.YBar));
        page.Shows("centroid_Z", Centroid(pair, pair.Observer.ZBar));
        page.Shows("E313", Measurands.YellownessIndexE313.Read(evaluation)!.Value);
        page.Shows("E313", Measurands.YellownessIndexIso17223.Read(evaluation)!.Value);
        page.Shows("change", Measurands.ChangeInYellowness.Read(evaluation)!.Value);
        page.Shows("change", Measurands.ChangeInYellownessIso17223.Read(evaluation)!.Value);
        page.HasNoOtherFigures();
    }

    // The page's table of coefficients, row by row.
    [Fact]
    public void Yellowness_TableOfCoefficients_IsTheOneInUse()
    {
        string page = File.ReadAllText(RepositoryRoot.PathOf("docs/methods/yellowness.md"));
        (string, double, double)[] printed =
        [
            .. CoefficientRow().Matches(page).Select(row => (
                $"{row.Groups["light"].Value}/{row.Groups["observer"].Value}",
                double.Parse(row.Groups["cx"].Value, CultureInfo.InvariantCulture),
                double.Parse(row.Groups["cz"].Value, CultureInfo.InvariantCulture))),
        ];

        Assert.Equal(E313Coefficients.All.Select(one => (one.LightAndObserver.ToString(), one.Cx, one.Cz)), printed);
    }

    private static TransmittanceSpectrum Line(WavelengthGrid grid, double at560Nm, double slopePerNm) =>
        TransmittanceSpectrum.FromFractions(grid, [.. grid.WavelengthsNm.ToArray().Select(nm => at560Nm + (slopePerNm * (nm - 560)))]);

    private static double Centroid(LightAndObserver pair) => Centroid(pair, pair.Observer.YBar);

    private static double Centroid(LightAndObserver pair, Spectrum matching)
    {
        Spectrum power = pair.Illuminant.RelativePower;
        double moment = 0;
        double sum = 0;
        for (int i = 0; i < power.Grid.Count; i++)
        {
            double weight = power[i] * matching[i];
            moment += weight * power.Grid[i];
            sum += weight;
        }

        return moment / sum;
    }

    [GeneratedRegex(@"^\| (?<light>\w+), (?<observer>\d+°) \| (?<cx>[\d.]+) \| (?<cz>[\d.]+) \|", RegexOptions.Multiline)]
    private static partial Regex CoefficientRow();
}
