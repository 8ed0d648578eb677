using ClearView.Contract.Tests;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

public sealed class SpecificationTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task StoreSpecification_New_FillsInTheVersionOfItsMethodAndIsGivenBack()
    {
        await using var server = await TestServer.StartAsync();

        var stored = await server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-25", DecisionExamples.Film()), cancellationToken: Token);
        await server.RestartAsync();
        var got = await server.Specifications.GetSpecificationAsync(Get("film-25"), cancellationToken: Token);

        Assert.False(stored.AlreadyStored);
        Assert.Equal(stored.Specification, got.Specification);
        Assert.Equal(new SpecificationName { Name = "film-25", Version = 1 }, got.Specification.SpecificationName);
        Assert.Equal(new MethodName { Name = "astm", Version = 1 }, got.Specification.Specification.MethodName);
        Assert.Equal("M. Arden", got.Specification.StoredBy);
        Assert.Equal(WireExamples.Clock.GetUtcNow(), got.Specification.StoredAt.ToDateTimeOffset());
    }

    [Fact]
    public async Task StoreSpecification_Again_WritesNothing_AndChanged_IsTheNextVersion()
    {
        await using var server = await TestServer.StartAsync();
        var first = await server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-25", DecisionExamples.Film()), cancellationToken: Token);

        var again = await server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-25", DecisionExamples.Film()), cancellationToken: Token);
        var tighter = await server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-25", DecisionExamples.Film(2.5)), cancellationToken: Token);

        Assert.Equal((true, first.Specification), (again.AlreadyStored, again.Specification));
        Assert.Equal((false, 2u), (tighter.AlreadyStored, tighter.Specification.SpecificationName.Version));
        Assert.Equal(first.Specification, (await server.Specifications.GetSpecificationAsync(Get("film-25", 1), cancellationToken: Token)).Specification);
    }

    [Fact]
    public async Task StoreSpecification_AtFault_NamesEveryField()
    {
        await using var server = await TestServer.StartAsync();
        var specification = new Specification
        {
            Product = " ",
            MethodName = new MethodName { Name = "astm" },
            RequiredSpecimenCount = 0,
            Limits =
            {
                new SpecificationLimit { Measurand = "haze", Lower = 4, Upper = 3 },
                new SpecificationLimit { Measurand = "gloss", Upper = 1 },
                new SpecificationLimit { Measurand = "yellowness_index_e313" },
                new SpecificationLimit { Measurand = "delta_e_2000", Upper = double.NaN },
            },
        };

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument,
            server.Specifications.StoreSpecificationAsync(
                new StoreSpecificationRequest { Name = "Film 25", Specification = specification }, cancellationToken: Token));

        Assert.Equal(
            [
                "description", "name", "specification.decision_rule", "specification.limits[0].lower", "specification.limits[1].measurand",
                "specification.limits[2]", "specification.limits[3].upper", "specification.product", "specification.product_kind",
                "specification.required_specimen_count", "stored_by",
            ],
            faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task StoreSpecification_OfAMethodThatIsNotThere_IsNotFoundAndNamesThoseThatAre()
    {
        await using var server = await TestServer.StartAsync();
        var specification = DecisionExamples.Film();
        specification.MethodName.Name = "house-method";

        var error = await Rpc.FailsAsync(
            StatusCode.NotFound,
            server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-25", specification), cancellationToken: Token));

        Assert.Contains("house-method", error.Status.Detail, StringComparison.Ordinal);
        Assert.Contains("astm", error.Status.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(11)]
    [InlineData(double.NaN)]
    public async Task StoreSpecification_GuardBandOutsideItsRange_IsRefused(double factor)
    {
        await using var server = await TestServer.StartAsync();
        var specification = DecisionExamples.Film();
        specification.DecisionRule = new DecisionRule { GuardBand = new GuardBand { Factor = factor } };

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument,
            server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-25", specification), cancellationToken: Token));

        Assert.Equal(["specification.decision_rule.guard_band.factor"], faults.Keys);
    }

    [Fact]
    public async Task ListSpecifications_PageByPage_GivesTheNewestOfEach()
    {
        await using var server = await TestServer.StartAsync();
        foreach (var (name, upper) in new[] { ("b", 3.0), ("a", 3.0), ("c", 3.0), ("a", 2.0) })
        {
            await server.Specifications.StoreSpecificationAsync(DecisionExamples.Store(name, DecisionExamples.Film(upper)), cancellationToken: Token);
        }

        List<string> listed = [];
        var request = new ListSpecificationsRequest { PageSize = 2 };
        do
        {
            var page = await server.Specifications.ListSpecificationsAsync(request, cancellationToken: Token);
            listed.AddRange(page.Specifications.Select(one => $"{one.SpecificationName.Name} {one.SpecificationName.Version}"));
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);

        Assert.Equal(["a 2", "b 1", "c 1"], listed);
    }

    [Fact]
    public async Task ListSpecifications_TokenOfMethods_IsRefused()
    {
        await using var server = await TestServer.StartAsync();
        var methods = await server.Catalogue.ListMethodsAsync(new ListMethodsRequest { PageSize = 1 }, cancellationToken: Token);

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument,
            server.Specifications.ListSpecificationsAsync(
                new ListSpecificationsRequest { PageToken = methods.NextPageToken }, cancellationToken: Token));

        Assert.Equal(["page_token"], faults.Keys);
    }

    [Fact]
    public async Task StoreReference_TakesTheColourOfAReading_AndASpecificationFreezesIt()
    {
        await using var server = await TestServer.StartAsync();
        var reading = await PostAsync(server, WireExamples.Normalised(), "0190d3c4-0000-7000-8000-0000000000a1");
        var reference = await server.Specifications.StoreReferenceAsync(Reference(reading.ReadingId), cancellationToken: Token);
        var specification = DecisionExamples.Film();
        specification.Limits.Add(new SpecificationLimit { Measurand = "delta_e_2000", Upper = 1, ReferenceName = new ReferenceName { Name = "first-roll" } });

        var stored = await server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-25", specification), cancellationToken: Token);
        var other = await PostAsync(server, WireExamples.Normalised(0.7), "0190d3c4-0000-7000-8000-0000000000a2");
        await server.Specifications.StoreReferenceAsync(Reference(other.ReadingId), cancellationToken: Token);
        var unchanged = await server.Specifications.GetSpecificationAsync(Get("film-25"), cancellationToken: Token);

        var l = reading.Evaluation.Values.Single(value => value.Measurand == "cielab_l");
        Assert.Equal(l.Value, reference.Reference.Colour.LStar);
        Assert.Equal(l.LightAndObserver, reference.Reference.LightAndObserver);
        var limit = stored.Specification.Specification.Limits[1];
        Assert.Equal(reference.Reference.Colour, limit.ReferenceColour);
        Assert.Equal(new ReferenceName { Name = "first-roll", Version = 1 }, limit.ReferenceName);
        Assert.Equal(stored.Specification, unchanged.Specification);
    }

    [Fact]
    public async Task StoreReference_ReadingWithoutColour_IsRefused_AndUnknown_IsNotFound()
    {
        await using var server = await TestServer.StartAsync();
        var request = new PostReadingRequest
        {
            ReadingId = "0190d3c4-0000-7000-8000-0000000000a1",
            Measurement = WireExamples.Hazemeter(),
            MethodName = new MethodName { Name = "astm-hazemeter" },
        };
        await server.Readings.PostReadingAsync(request, cancellationToken: Token);

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.Specifications.StoreReferenceAsync(Reference(request.ReadingId), cancellationToken: Token));
        Assert.Equal(["reading_id"], faults.Keys);
        await Rpc.FailsAsync(
            StatusCode.NotFound,
            server.Specifications.StoreReferenceAsync(Reference("0190d3c4-0000-7000-8000-0000000000ff"), cancellationToken: Token));
    }

    [Fact]
    public async Task StoreSpecification_ReferenceUnderAnotherLight_IsRefused()
    {
        await using var server = await TestServer.StartAsync();
        var method = WireExamples.Method();
        method.YellownessIndices.Clear();
        method.Colour = new LightAndObserver { Illuminant = "A", Observer = Observer.Cie19312Deg };
        var reading = await PostAsync(server, WireExamples.Normalised(), "0190d3c4-0000-7000-8000-0000000000a1", method);
        await server.Specifications.StoreReferenceAsync(Reference(reading.ReadingId), cancellationToken: Token);
        var specification = DecisionExamples.Film();
        specification.Limits.Add(new SpecificationLimit { Measurand = "delta_e_ab", Upper = 1, ReferenceName = new ReferenceName { Name = "first-roll" } });

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument,
            server.Specifications.StoreSpecificationAsync(DecisionExamples.Store("film-25", specification), cancellationToken: Token));

        Assert.Equal(["specification.limits[1].reference_name"], faults.Keys);
    }

    private static GetSpecificationRequest Get(string name, uint version = 0) =>
        new() { SpecificationName = new SpecificationName { Name = name, Version = version } };

    private static StoreReferenceRequest Reference(string readingId) =>
        new() { Name = "first-roll", Description = "roll that the customer agreed to", ReadingId = readingId, StoredBy = "M. Arden" };

    private static async Task<Reading> PostAsync(TestServer server, Measurement measurement, string id, Method? method = null)
    {
        var request = new PostReadingRequest { ReadingId = id, Measurement = measurement, Method = method ?? WireExamples.Method() };
        return (await server.Readings.PostReadingAsync(request, cancellationToken: Token)).Reading;
    }
}
