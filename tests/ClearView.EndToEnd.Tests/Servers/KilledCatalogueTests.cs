using ClearView.Contract.Tests;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.EndToEnd.Tests.Servers;

/// <summary>A method that was acknowledged survives whatever happens to the server.</summary>
public sealed class KilledCatalogueTests : IDisposable
{
    private const int Rounds = 3;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-killed-methods-");

    private int _acknowledgedCount;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Store => Path.Combine(_folder.FullName, "readings.db");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Kill_AfterMethodsWereAcknowledged_LosesNone()
    {
        List<NamedMethod> acknowledged = [];
        for (var round = 0; round < Rounds; round++)
        {
            using var server = await ServerProcess.StartAsync(Store, Token);
            acknowledged.Add(await StoreAsync(server, round));
            await server.KillAsync();
        }

        using var last = await ServerProcess.StartAsync(Store, Token);
        using var channel = last.Connect();
        var catalogue = new CatalogueService.CatalogueServiceClient(channel);

        Assert.Equal([1u, 2u, 3u], acknowledged.Select(method => method.MethodName.Version));
        foreach (var method in acknowledged)
        {
            var got = await catalogue.GetMethodAsync(new GetMethodRequest { MethodName = method.MethodName }, cancellationToken: Token);
            Assert.Equal(method, got.Method);
        }

        var evaluated = await new EvaluationService.EvaluationServiceClient(channel).EvaluateAsync(
            new EvaluateRequest { Measurement = WireExamples.Sphere(), MethodName = new MethodName { Name = "line-3" } },
            cancellationToken: Token);
        Assert.Equal(acknowledged[^1].MethodName, evaluated.Evaluation.MethodName);
        Assert.Equal(acknowledged[^1].Method, evaluated.Evaluation.Method);
    }

    [Fact]
    public async Task Kill_WhileStoring_LosesNoAcknowledgedMethodAndLeavesNoGap()
    {
        List<NamedMethod> acknowledged = [];
        using (var server = await ServerProcess.StartAsync(Store, Token))
        {
            var storing = StoreUntilCutOffAsync(server, acknowledged);
            while (Volatile.Read(ref _acknowledgedCount) < 20)
            {
                Assert.False(storing.IsCompleted, "the server went away before it was killed");
                await Task.Delay(10, Token);
            }

            await server.KillAsync();
            await storing;
        }

        using var last = await ServerProcess.StartAsync(Store, Token);
        using var channel = last.Connect();
        var listed = await new CatalogueService.CatalogueServiceClient(channel).ListMethodsAsync(
            new ListMethodsRequest { AllVersions = true, PageSize = 1000 }, cancellationToken: Token);
        var stored = listed.Methods.Where(method => !method.BuiltIn).ToList();

        // The one that was on its way may be there or not.
        Assert.InRange(stored.Count, acknowledged.Count, acknowledged.Count + 1);
        Assert.Equal(acknowledged, stored.Take(acknowledged.Count));
        Assert.Equal(Enumerable.Range(1, stored.Count).Select(i => (uint)i), stored.Select(method => method.MethodName.Version));
    }

    private async Task StoreUntilCutOffAsync(ServerProcess server, List<NamedMethod> acknowledged)
    {
        using var channel = server.Connect();
        var catalogue = new CatalogueService.CatalogueServiceClient(channel);

        // A page holds up to 1000.
        for (var i = 0; i < 900; i++)
        {
            try
            {
                acknowledged.Add((await catalogue.StoreMethodAsync(Request(i), cancellationToken: Token)).Method);
                Interlocked.Increment(ref _acknowledgedCount);
            }
            catch (RpcException error) when (error.StatusCode is StatusCode.Unavailable or StatusCode.Internal or StatusCode.Cancelled)
            {
                return;
            }
        }
    }

    private static async Task<NamedMethod> StoreAsync(ServerProcess server, int number)
    {
        using var channel = server.Connect();
        var response = await new CatalogueService.CatalogueServiceClient(channel).StoreMethodAsync(Request(number), cancellationToken: Token);
        return response.Method;
    }

    private static StoreMethodRequest Request(int number)
    {
        var method = WireExamples.Method();
        method.InitialYellownessIndex = number;
        return new StoreMethodRequest { Name = "line-3", Description = "film on line 3", Method = method, StoredBy = "M. Arden" };
    }
}
