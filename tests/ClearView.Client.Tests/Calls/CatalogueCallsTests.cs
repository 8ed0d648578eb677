using ClearView.V1;

using Google.Protobuf;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

public class CatalogueCallsTests
{
    private static readonly Method Method = new() { HazeStandard = HazeStandard.AstmD1003ProcedureB };

    private static readonly MethodName Name = new() { Name = "film-25", Version = 3 };

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    /// <summary>Every call of the catalogue, with the request that it has to send.</summary>
    public static TheoryData<IMessage, Func<ClearViewClient, Task>> Calls { get; } = new()
    {
        { new GetCatalogueRequest(), client => client.GetCatalogueAsync(Token) },
        { new ListMethodsRequest(), client => ListAsync(client) },
        { new GetMethodRequest { MethodName = Name }, client => client.GetMethodAsync(Name, Token) },
        {
            new StoreMethodRequest { Name = "film-25", Description = "film on line 3", Method = Method, StoredBy = "M. Arden" },
            client => client.StoreMethodAsync("film-25", "film on line 3", Method, "M. Arden", Token)
        },
    };

    [Theory]
    [MemberData(nameof(Calls))]
    public async Task CatalogueCall_ServerUnavailableAtFirst_IsRepeatedAsItWas(IMessage request, Func<ClearViewClient, Task> call)
    {
        var catalogue = new FakeCatalogue { CallsToFail = 2, Listed = 1 };
        await using var server = await FakeServer.StartAsync(catalogue: catalogue);
        await using var client = server.Connect();

        await call(client);

        Assert.Equal([request, request, request], catalogue.Requests);
    }

    [Theory]
    [MemberData(nameof(Calls))]
    public async Task CatalogueCall_ServerStaysUnavailable_GivesUpAfterTheAttempts(IMessage request, Func<ClearViewClient, Task> call)
    {
        var catalogue = new FakeCatalogue { CallsToFail = int.MaxValue };
        await using var server = await FakeServer.StartAsync(catalogue: catalogue);
        await using var client = server.Connect(maxAttempts: 3);

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => call(client));

        Assert.Equal(StatusCode.Unavailable, fault.Status);
        Assert.True(fault.IsTransient);
        Assert.Equal([request, request, request], catalogue.Requests);
    }

    [Theory]
    [MemberData(nameof(Calls))]
    public async Task CatalogueCall_NotFound_IsToldAndNotRepeated(IMessage request, Func<ClearViewClient, Task> call)
    {
        var catalogue = new FakeCatalogue { CallsToFail = 1, Fault = StatusCode.NotFound };
        await using var server = await FakeServer.StartAsync(catalogue: catalogue);
        await using var client = server.Connect();

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => call(client));

        Assert.Equal(StatusCode.NotFound, fault.Status);
        Assert.Equal("told to fail", fault.Message);
        Assert.False(fault.IsTransient);
        Assert.Equal([request], catalogue.Requests);
    }

    [Fact]
    public async Task StoreMethodAsync_BuiltInName_IsToldAndNotRepeated()
    {
        var catalogue = new FakeCatalogue { CallsToFail = 1, Fault = StatusCode.AlreadyExists };
        await using var server = await FakeServer.StartAsync(catalogue: catalogue);
        await using var client = server.Connect();

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => client.StoreMethodAsync("astm", "mine", Method, "M. Arden", Token));

        Assert.Equal(StatusCode.AlreadyExists, fault.Status);
        Assert.Single(catalogue.Requests);
    }

    [Fact]
    public async Task CatalogueCalls_Answered_GiveWhatTheServerSaid()
    {
        await using var server = await FakeServer.StartAsync();
        await using var client = server.Connect();

        Assert.Equal("tables 1", (await client.GetCatalogueAsync(Token)).CieDataVersion);
        Assert.Equal(3u, (await client.GetMethodAsync(new MethodName { Name = "film-25" }, Token)).MethodName.Version);
        Assert.Equal(4u, (await client.StoreMethodAsync("film-25", "film", Method, "M. Arden", Token)).Method.MethodName.Version);
    }

    [Theory]
    [InlineData(0, 1)]
    [InlineData(10, 1)]
    [InlineData(11, 2)]
    [InlineData(25, 3)]
    public async Task ListMethodsAsync_AnyNumber_FollowsThePages(int count, int pages)
    {
        var catalogue = new FakeCatalogue { Listed = count };
        await using var server = await FakeServer.StartAsync(catalogue: catalogue);
        await using var client = server.Connect();

        var names = await ListAsync(client, allVersions: true);

        Assert.Equal(Enumerable.Range(0, count).Select(i => FormattableString.Invariant($"method-{i}")), names);
        Assert.Equal(pages, catalogue.Requests.Count);
        Assert.All(catalogue.Requests, request => Assert.True(((ListMethodsRequest)request).AllVersions));
    }

    [Fact]
    public async Task ListMethodsAsync_ListThatDoesNotAdvance_IsEnded()
    {
        await using var server = await FakeServer.StartAsync(catalogue: new FakeCatalogue { Listed = 25, ListStandsStill = true });
        await using var client = server.Connect();

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => ListAsync(client));

        Assert.Contains("does not advance", fault.Message, StringComparison.Ordinal);
    }

    private static async Task<List<string>> ListAsync(ClearViewClient client, bool allVersions = false)
    {
        List<string> names = [];
        await foreach (var method in client.ListMethodsAsync(allVersions, Token))
        {
            names.Add(method.MethodName.Name);
        }
        return names;
    }
}
