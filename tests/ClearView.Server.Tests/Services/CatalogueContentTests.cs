using ClearView.Contract.Tests;
using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Thickness;
using ClearView.V1;

using LightAndObserver = ClearView.Optics.Colorimetry.LightAndObserver;
using Observer = ClearView.V1.Observer;

namespace ClearView.Server.Tests.Services;

public sealed class CatalogueContentTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task GetCatalogue_Illuminants_AreThoseOfTheRegistryWithBothWhitePoints()
    {
        var catalogue = await CatalogueAsync();

        Assert.Equal(CieTables.VersionId, catalogue.CieDataVersion);
        Assert.Equal(Illuminant.All.Select(one => (one.Name, one.Description)), catalogue.Illuminants.Select(one => (one.Name, one.Description)));
        Assert.All(Illuminant.All.Zip(catalogue.Illuminants), pair =>
        {
            Assert.Equal([Observer.Cie19312Deg, Observer.Cie196410Deg], pair.Second.WhitePoints.Select(white => white.Observer));
            IsWhite(pair.Second.WhitePoints[0], new LightAndObserver(pair.First, Optics.Colorimetry.Observer.Cie1931Degree2));
            IsWhite(pair.Second.WhitePoints[1], new LightAndObserver(pair.First, Optics.Colorimetry.Observer.Cie1964Degree10));
        });
    }

    // White points of ASTM E308, tables 5, from memory.
    [Theory]
    [InlineData("A", Observer.Cie19312Deg, 109.850, 35.585)]
    [InlineData("A", Observer.Cie196410Deg, 111.144, 35.200)]
    [InlineData("C", Observer.Cie19312Deg, 98.074, 118.232)]
    [InlineData("C", Observer.Cie196410Deg, 97.285, 116.145)]
    [InlineData("D65", Observer.Cie19312Deg, 95.047, 108.883)]
    [InlineData("D65", Observer.Cie196410Deg, 94.811, 107.304)]
    public async Task GetCatalogue_WhitePoints_AreThePublishedOnes(string illuminant, Observer observer, double x, double z)
    {
        var catalogue = await CatalogueAsync();

        var white = catalogue.Illuminants.Single(one => one.Name == illuminant).WhitePoints.Single(one => one.Observer == observer);

        Assert.Equal(x, white.TristimulusX, 0.005);
        Assert.Equal(100, white.TristimulusY, 1e-9);
        Assert.Equal(z, white.TristimulusZ, 0.005);
    }

    [Fact]
    public async Task GetCatalogue_Bands_AreThoseOfTheRegistry()
    {
        var catalogue = await CatalogueAsync();

        Assert.Equal(
            Band.All.Select(band => (band.Id, band.Name, band.Range.FromNm, band.Range.ToNm)),
            catalogue.Bands.Select(band => (band.Band, band.Name, band.FromNm, band.ToNm)));

        // UV-A and UV-B of the International Lighting Vocabulary (CIE S 017), from memory.
        Assert.Contains(catalogue.Bands, band => band is { Band: "uv-a", FromNm: 315, ToNm: 400 });
        Assert.Contains(catalogue.Bands, band => band is { Band: "uv-b", FromNm: 280, ToNm: 315 });
    }

    [Fact]
    public async Task GetCatalogue_Resins_AreThoseOfTheRegistryAndCanAllBeUsed()
    {
        await using var server = await TestServer.StartAsync();
        var catalogue = await server.Catalogue.GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token);

        Assert.Equal(
            Resin.All.Select(resin => (resin.Id, resin.Name, resin.Index.Description, resin.Index.At(589.3))),
            catalogue.Resins.Select(resin => (resin.Resin, resin.Name, resin.Source, resin.RefractiveIndex)));
        foreach (var resin in catalogue.Resins)
        {
            // 85 % leaves room for the surface losses of every resin.
            var request = new EvaluateRequest { Measurement = WireExamples.Normalised(0.85), Method = WireExamples.Method(), OmitSpectra = true };
            request.Measurement.Conditions.ThicknessUm = 300;
            request.Method.ReferenceThickness = new ReferenceThickness { ThicknessUm = 250, Resin = resin.Resin };
            var evaluation = (await server.Evaluations.EvaluateAsync(request, cancellationToken: Token)).Evaluation;
            Assert.Equal(resin.Source, evaluation.AtReferenceThickness.RefractiveIndexSource);
        }
    }

    // Refractive indices at the sodium D line, handbook figures to two decimals, from memory.
    [Theory]
    [InlineData("pmma", 1.49)]
    [InlineData("pc", 1.585)]
    [InlineData("ps", 1.59)]
    [InlineData("pet", 1.575)]
    public async Task GetCatalogue_RefractiveIndices_AreThoseOfHandbooks(string resin, double index)
    {
        var catalogue = await CatalogueAsync();

        Assert.Equal(index, catalogue.Resins.Single(one => one.Resin == resin).RefractiveIndex, 0.005);
    }

    [Fact]
    public async Task GetCatalogue_Measurands_AreThoseOfTheRegistryInItsOrder()
    {
        var catalogue = await CatalogueAsync();

        Assert.Equal(
            Measurand.All.Select(one => (one.Id, one.Name, one.Symbol, one.Unit, one.Needs)),
            catalogue.Measurands.Select(one => (one.Measurand, one.Name, one.Symbol, one.Unit, one.Needs)));
    }

    [Fact]
    public async Task GetCatalogue_EveryIlluminant_CanBeUsedByItsName()
    {
        await using var server = await TestServer.StartAsync();
        var catalogue = await server.Catalogue.GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token);
        foreach (var illuminant in catalogue.Illuminants)
        {
            var method = WireExamples.Method();
            method.Luminous.Illuminant = illuminant.Name;

            var evaluation = (await server.Evaluations.EvaluateAsync(
                new EvaluateRequest { Measurement = WireExamples.Normalised(), Method = method, OmitSpectra = true }, cancellationToken: Token)).Evaluation;

            Assert.Equal(
                illuminant.Name,
                evaluation.Values.Single(value => value.Measurand == "luminous_transmittance").LightAndObserver.Illuminant);
        }
    }

    private static void IsWhite(WhitePointInfo white, LightAndObserver light)
    {
        var expected = WhitePoint.Of(light);
        Assert.Equal((expected.X, expected.Y, expected.Z), (white.TristimulusX, white.TristimulusY, white.TristimulusZ));
    }

    private static async Task<GetCatalogueResponse> CatalogueAsync()
    {
        await using var server = await TestServer.StartAsync();
        return await server.Catalogue.GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token);
    }
}
