using ClearView.Contract.Methods;
using ClearView.Contract.Tests;
using ClearView.Records.Model;
using ClearView.V1;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;

namespace ClearView.Server.Tests.Services;

public sealed class StoredMethodsTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task StoreMethod_New_IsGivenBackAsItWasStored()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request("film-25", 1);

        var stored = await server.Catalogue.StoreMethodAsync(request, cancellationToken: Token);
        var got = await server.Catalogue.GetMethodAsync(Get("film-25"), cancellationToken: Token);

        Assert.False(stored.AlreadyStored);
        Assert.Equal(stored.Method, got.Method);
        Assert.Equal(new MethodName { Name = "film-25", Version = 1 }, got.Method.MethodName);
        Assert.Equal((request.Description, request.Method, request.StoredBy), (got.Method.Description, got.Method.Method, got.Method.StoredBy));
        Assert.False(got.Method.BuiltIn);
        Assert.Equal(WireExamples.Clock.GetUtcNow(), got.Method.StoredAt.ToDateTimeOffset());
    }

    [Fact]
    public async Task StoreMethod_WhatTheNewestHolds_WritesNothing()
    {
        await using var server = await TestServer.StartAsync();
        var first = await server.Catalogue.StoreMethodAsync(Request("film-25", 1), cancellationToken: Token);

        var again = await server.Catalogue.StoreMethodAsync(Request("film-25", 1), cancellationToken: Token);
        var other = await server.Catalogue.StoreMethodAsync(Request("film-25", 2), cancellationToken: Token);
        var back = await server.Catalogue.StoreMethodAsync(Request("film-25", 1), cancellationToken: Token);

        Assert.True(again.AlreadyStored);
        Assert.Equal(first.Method, again.Method);
        Assert.Equal((false, 2u), (other.AlreadyStored, other.Method.MethodName.Version));

        // The newest holds something else by now, so that going back is a version of its own.
        Assert.Equal((false, 3u), (back.AlreadyStored, back.Method.MethodName.Version));
        Assert.Equal(first.Method, (await server.Catalogue.GetMethodAsync(Get("film-25", 1), cancellationToken: Token)).Method);
    }

    [Fact]
    public async Task StoreMethod_EveryBuiltInName_IsAlreadyExistsAndStoresNothing()
    {
        await using var server = await TestServer.StartAsync();

        foreach (var builtIn in BuiltInMethods.All)
        {
            var error = await Rpc.FailsAsync(
                StatusCode.AlreadyExists, server.Catalogue.StoreMethodAsync(Request(builtIn.Name, 1), cancellationToken: Token));
            Assert.Contains($"\"{builtIn.Name}\"", error.Status.Detail, StringComparison.Ordinal);
        }

        var listed = await server.Catalogue.ListMethodsAsync(new ListMethodsRequest { AllVersions = true }, cancellationToken: Token);
        Assert.Equal(BuiltInMethods.All.Select(builtIn => builtIn.ToNamedMethod()), listed.Methods);
    }

    [Fact]
    public async Task StoreMethod_EverythingWrong_IsNamedAtOnce()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request("Film 25", 1);
        request.Description = "";
        request.StoredBy = "two\nlines";
        request.Method.Luminous.Illuminant = "moonlight";
        request.Method.Colour.Observer = Observer.Unspecified;
        request.Method.ReferenceThickness = new ReferenceThickness { ThicknessUm = 25, Resin = "amber" };
        request.Method.Uncertainty = new UncertaintyInputs { CoveragePercent = 100 };

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.Catalogue.StoreMethodAsync(request, cancellationToken: Token));

        Assert.Equal(
            [
                "description",
                "method.colour.observer",
                "method.luminous.illuminant",
                "method.reference_thickness.resin",
                "method.uncertainty.coverage_percent",
                "name",
                "stored_by",
            ],
            faults.Keys.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task StoreMethod_Nothing_NamesEveryRequiredField()
    {
        await using var server = await TestServer.StartAsync();

        var faults = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.Catalogue.StoreMethodAsync(new StoreMethodRequest(), cancellationToken: Token));

        Assert.Equal(["description", "method", "name", "stored_by"], faults.Keys.Order(StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("a", true)]
    [InlineData("film-25.b", true)]
    [InlineData("25-film", false)]
    [InlineData("-film", false)]
    [InlineData("Film", false)]
    [InlineData("film_25", false)]
    [InlineData("film 25", false)]
    [InlineData("film\n", false)]
    [InlineData("füllung", false)]
    public async Task StoreMethod_Name_IsLettersDigitsHyphensAndDots(string name, bool accepted)
    {
        await using var server = await TestServer.StartAsync();

        var call = server.Catalogue.StoreMethodAsync(Request(name, 1), cancellationToken: Token);

        if (accepted)
        {
            Assert.Equal(name, (await call).Method.MethodName.Name);
        }
        else
        {
            Assert.Equal(["name"], (await Rpc.FaultsAsync(StatusCode.InvalidArgument, call)).Keys);
        }
    }

    [Fact]
    public async Task StoreMethod_WithEverythingAMethodCanSay_IsKeptBitForBit()
    {
        await using var server = await TestServer.StartAsync();
        var request = Request("line-3", 1);
        var method = request.Method;
        method.ReferenceColour = new CielabColour { LStar = 95.1, AStar = -0.2, BStar = 1.5 };
        method.Bands.Add(new WavelengthBand { FromNm = 400, ToNm = 450 });
        method.LightBarrierLimitPercent = 10;
        method.ReferenceThickness = new ReferenceThickness
        {
            ThicknessUm = 25,
            Table = new RefractiveIndexTable { WavelengthNm = { 450, 500, 550 }, RefractiveIndex = { 1.51, 1.5, 1.495 } },
        };
        method.Uncertainty = new UncertaintyInputs
        {
            CoveragePercent = 95,
            RepeatabilityByWavelengthPercent = { Enumerable.Repeat(0.05, 43) },
            MonteCarlo = new MonteCarlo { Seed = 7, SignificantDigits = 1 },
        };
        method.DifferenceFactors = new DifferenceFactors { Lightness = 2, Chroma = 1, Hue = 1, CmcLightness = 2, CmcChroma = 1 };

        await server.Catalogue.StoreMethodAsync(request, cancellationToken: Token);

        Assert.Equal(method, (await server.Catalogue.GetMethodAsync(Get("line-3"), cancellationToken: Token)).Method.Method);
    }

    [Fact]
    public async Task GetMethod_BuiltIn_IsGivenWithItsVersion()
    {
        await using var server = await TestServer.StartAsync();

        var got = await server.Catalogue.GetMethodAsync(Get("iso", 1), cancellationToken: Token);

        Assert.Equal(BuiltInMethods.Find("iso")!.ToNamedMethod(), got.Method);
        Assert.True(got.Method.BuiltIn);
        Assert.Empty(got.Method.StoredBy);
        Assert.Null(got.Method.StoredAt);
    }

    [Fact]
    public async Task GetMethod_UnknownNameOrVersion_IsNotFoundWithWhatThereIs()
    {
        await using var server = await TestServer.StartAsync();
        await server.Catalogue.StoreMethodAsync(Request("film-25", 1), cancellationToken: Token);

        var name = await Rpc.FailsAsync(StatusCode.NotFound, server.Catalogue.GetMethodAsync(Get("nobody"), cancellationToken: Token));
        var version = await Rpc.FailsAsync(StatusCode.NotFound, server.Catalogue.GetMethodAsync(Get("film-25", 7), cancellationToken: Token));

        Assert.Contains("astm, astm-hazemeter, iso, film-25", name.Status.Detail, StringComparison.Ordinal);
        Assert.Contains("no version 7; its newest is 1", version.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task GetMethod_NoNameOrABadOne_IsInvalidArgument()
    {
        await using var server = await TestServer.StartAsync();

        var missing = await Rpc.FaultsAsync(
            StatusCode.InvalidArgument, server.Catalogue.GetMethodAsync(new GetMethodRequest(), cancellationToken: Token));
        var bad = await Rpc.FaultsAsync(StatusCode.InvalidArgument, server.Catalogue.GetMethodAsync(Get("ASTM"), cancellationToken: Token));

        Assert.Equal(["method_name"], missing.Keys);
        Assert.Equal(["method_name.name"], bad.Keys);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(4)]
    [InlineData(0)]
    public async Task ListMethods_AllVersions_GivesEachOnce(int pageSize)
    {
        await using var server = await TestServer.StartAsync();
        await server.Catalogue.StoreMethodAsync(Request("b", 1), cancellationToken: Token);
        for (var i = 1; i <= 3; i++)
        {
            await server.Catalogue.StoreMethodAsync(Request("a", i), cancellationToken: Token);
        }

        List<string> listed = [];
        var request = new ListMethodsRequest { PageSize = pageSize, AllVersions = true };
        do
        {
            var page = await server.Catalogue.ListMethodsAsync(request, cancellationToken: Token);
            listed.AddRange(page.Methods.Select(method => $"{method.MethodName.Name} {method.MethodName.Version}"));
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);

        Assert.Equal(["astm 1", "astm-hazemeter 1", "iso 1", "a 1", "a 2", "a 3", "b 1"], listed);
    }

    [Fact]
    public async Task ListMethods_BadPage_NamesSizeAndToken()
    {
        await using var server = await TestServer.StartAsync();
        var first = await server.Catalogue.ListMethodsAsync(new ListMethodsRequest { PageSize = 1 }, cancellationToken: Token);

        Assert.Equal(["page_size"], await FaultsAsync(new ListMethodsRequest { PageSize = 1001 }));
        Assert.Equal(["page_size", "page_token"], await FaultsAsync(new ListMethodsRequest { PageSize = -1, PageToken = "no token" }));
        Assert.Equal(["page_token"], await FaultsAsync(new ListMethodsRequest { PageToken = first.NextPageToken, AllVersions = true }));
        Assert.Empty((await server.Catalogue.ListMethodsAsync(new ListMethodsRequest { PageSize = 1000 }, cancellationToken: Token)).NextPageToken);

        async Task<IEnumerable<string>> FaultsAsync(ListMethodsRequest request) =>
            (await Rpc.FaultsAsync(StatusCode.InvalidArgument, server.Catalogue.ListMethodsAsync(request, cancellationToken: Token)))
            .Keys.Order(StringComparer.Ordinal);
    }

    [Fact]
    public async Task StoreOfMethodsFails_EveryCallThatNeedsIt_IsUnavailable()
    {
        await using var server = await TestServer.StartAsync(services => services.AddKeyedSingleton<IVersionedStore>(VersionedKind.Method, new FailingVersionedStore()));

        await Rpc.FailsAsync(StatusCode.Unavailable, server.Catalogue.StoreMethodAsync(Request("film-25", 1), cancellationToken: Token));
        await Rpc.FailsAsync(StatusCode.Unavailable, server.Catalogue.GetMethodAsync(Get("film-25"), cancellationToken: Token));
        await Rpc.FailsAsync(StatusCode.Unavailable, server.Catalogue.ListMethodsAsync(new ListMethodsRequest(), cancellationToken: Token));
    }

    [Fact]
    public async Task Restart_KeepsEveryVersion()
    {
        await using var server = await TestServer.StartAsync();
        var first = await server.Catalogue.StoreMethodAsync(Request("film-25", 1), cancellationToken: Token);
        var second = await server.Catalogue.StoreMethodAsync(Request("film-25", 2), cancellationToken: Token);
        var before = await server.Catalogue.ListMethodsAsync(new ListMethodsRequest { AllVersions = true }, cancellationToken: Token);

        await server.RestartAsync();

        Assert.Equal(before, await server.Catalogue.ListMethodsAsync(new ListMethodsRequest { AllVersions = true }, cancellationToken: Token));
        Assert.Equal(second.Method, (await server.Catalogue.GetMethodAsync(Get("film-25"), cancellationToken: Token)).Method);
        Assert.Equal(first.Method, (await server.Catalogue.GetMethodAsync(Get("film-25", 1), cancellationToken: Token)).Method);
        Assert.True((await server.Catalogue.StoreMethodAsync(Request("film-25", 2), cancellationToken: Token)).AlreadyStored);
        Assert.Equal(3u, (await server.Catalogue.StoreMethodAsync(Request("film-25", 3), cancellationToken: Token)).Method.MethodName.Version);
    }

    private static GetMethodRequest Get(string name, uint version = 0) =>
        new() { MethodName = new MethodName { Name = name, Version = version } };

    private static StoreMethodRequest Request(string name, double initialYellowness)
    {
        var method = WireExamples.Method();
        method.InitialYellownessIndex = initialYellowness;
        return new StoreMethodRequest { Name = name, Description = "film on line 3", Method = method, StoredBy = "M. Arden" };
    }
}
