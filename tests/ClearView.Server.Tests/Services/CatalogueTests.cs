using ClearView.Contract.Tests;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

public sealed class CatalogueTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task StoreMethod_Concurrently_GivesDistinctVersions()
    {
        await using var server = await TestServer.StartAsync();
        var catalogue = new CatalogueService.CatalogueServiceClient(server.Channel);

        var answers = await Task.WhenAll(Enumerable.Range(1, 12).Select(
            i => catalogue.StoreMethodAsync(Request("film-25", i), cancellationToken: Token).ResponseAsync));

        Assert.Equal(
            Enumerable.Range(1, 12).Select(i => (uint)i), answers.Select(answer => answer.Method.MethodName.Version).Order());
    }

    [Fact]
    public async Task StoreMethod_BuiltInName_IsAlreadyExists()
    {
        await using var server = await TestServer.StartAsync();
        var catalogue = new CatalogueService.CatalogueServiceClient(server.Channel);

        await Rpc.FailsAsync(StatusCode.AlreadyExists, catalogue.StoreMethodAsync(Request("astm", 1), cancellationToken: Token));
    }

    [Theory]
    [InlineData(60, 200, 100, true)]
    [InlineData(61, 200, 100, false)]
    [InlineData(60, 201, 100, false)]
    [InlineData(60, 200, 101, false)]
    [InlineData(0, 200, 100, false)]
    [InlineData(60, 0, 100, false)]
    [InlineData(60, 200, 0, false)]
    public async Task StoreMethod_Lengths_AreTakenUpToTheirLimits(int name, int description, int storedBy, bool accepted)
    {
        await using var server = await TestServer.StartAsync();
        var catalogue = new CatalogueService.CatalogueServiceClient(server.Channel);
        var request = Request(new string('a', name), 1);
        request.Description = new string('d', description);
        request.StoredBy = new string('s', storedBy);

        var call = catalogue.StoreMethodAsync(request, cancellationToken: Token);

        if (accepted)
        {
            Assert.Equal(1u, (await call).Method.MethodName.Version);
        }
        else
        {
            Assert.Single(await Rpc.FaultsAsync(StatusCode.InvalidArgument, call));
        }
    }

    [Fact]
    public async Task Post_ByNameAgainAfterANewVersion_IsTheSamePost()
    {
        await using var server = await TestServer.StartAsync();
        var catalogue = new CatalogueService.CatalogueServiceClient(server.Channel);
        await catalogue.StoreMethodAsync(Request("film-25", 1), cancellationToken: Token);
        var post = new PostReadingRequest
        {
            ReadingId = "0198f2a4-7c00-7000-8000-00000000001a",
            Measurement = WireExamples.Sphere(),
            MethodName = new MethodName { Name = "film-25" },
        };
        var first = await server.Readings.PostReadingAsync(post, cancellationToken: Token);
        await catalogue.StoreMethodAsync(Request("film-25", 2), cancellationToken: Token);

        var second = await server.Readings.PostReadingAsync(post, cancellationToken: Token);

        Assert.Equal(new MethodName { Name = "film-25", Version = 1 }, first.Reading.Evaluation.MethodName);
        Assert.True(second.AlreadyStored);
        Assert.Equal(first.Reading, second.Reading);
        post.MethodName.Version = 2;
        var faults = await Rpc.FaultsAsync(StatusCode.AlreadyExists, server.Readings.PostReadingAsync(post, cancellationToken: Token));
        Assert.Equal(["method_name"], faults.Keys);
    }

    [Fact]
    public async Task Evaluate_UnknownName_IsNotFoundWithWhatThereIs()
    {
        await using var server = await TestServer.StartAsync();

        var error = await Rpc.FailsAsync(StatusCode.NotFound, server.Evaluations.EvaluateAsync(
            new EvaluateRequest { Measurement = WireExamples.Sphere(), MethodName = new MethodName { Name = "nobody" } }, cancellationToken: Token));

        Assert.Contains("astm-hazemeter", error.Status.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(5)]
    [InlineData(6)]
    public async Task ListMethods_PageByPage_GivesBuiltInThenStoredOnes(int pageSize)
    {
        await using var server = await TestServer.StartAsync();
        var catalogue = new CatalogueService.CatalogueServiceClient(server.Channel);
        await catalogue.StoreMethodAsync(Request("b", 1), cancellationToken: Token);
        await catalogue.StoreMethodAsync(Request("a", 1), cancellationToken: Token);
        await catalogue.StoreMethodAsync(Request("a", 2), cancellationToken: Token);
        List<string> listed = [];
        var request = new ListMethodsRequest { PageSize = pageSize };
        do
        {
            var page = await catalogue.ListMethodsAsync(request, cancellationToken: Token);
            Assert.NotEmpty(page.Methods);
            listed.AddRange(page.Methods.Select(method => $"{method.MethodName.Name} {method.MethodName.Version}"));
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);

        Assert.Equal(["astm 1", "astm-hazemeter 1", "iso 1", "a 2", "b 1"], listed);
    }

    [Fact]
    public async Task EvaluateSpecimens_TwoSpecimens_GivesTheMeanAndNamesFaultsByPlace()
    {
        await using var server = await TestServer.StartAsync();
        var request = new EvaluateSpecimensRequest
        {
            Measurements = { WireExamples.Normalised(0.8), WireExamples.Normalised(0.9) },
            MethodName = new MethodName { Name = "astm" },
        };

        var response = await server.Evaluations.EvaluateSpecimensAsync(request, cancellationToken: Token);

        // By hand: flat spectra of 80 % and 90 % have the mean 85 % and the standard deviation 10 %/√2.
        var mean = response.Means.Single(one => one.Measurand == "luminous_transmittance");
        Assert.Equal(85, mean.Mean, 1e-9);
        Assert.Equal(10 / Math.Sqrt(2), mean.StandardDeviation, 1e-9);
        Assert.Equal(2u, mean.SpecimenCount);
        Assert.Empty(response.WallSummaries);
        request.Measurements[1].Conditions.ApertureMm = 0;
        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.Evaluations.EvaluateSpecimensAsync(request, cancellationToken: Token));
        Assert.Equal(["measurements[1].conditions.aperture_mm"], faults.Keys);
    }

    private static StoreMethodRequest Request(string name, int initialYellowness)
    {
        var method = WireExamples.Method();
        method.InitialYellownessIndex = initialYellowness;
        return new StoreMethodRequest { Name = name, Description = "film on line 3", Method = method, StoredBy = "M. Arden" };
    }
}
