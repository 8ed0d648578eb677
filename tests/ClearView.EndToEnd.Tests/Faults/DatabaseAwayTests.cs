using ClearView.Client;
using ClearView.Client.Outbox;
using ClearView.EndToEnd.Tests.Lines;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.Records.Postgres;
using ClearView.Records.Tests.Postgres;

using Grpc.Health.V1;

namespace ClearView.EndToEnd.Tests.Faults;

/// <summary>The database stops, crashes and comes back under a server that goes on, while a line posts through its outbox.</summary>
public sealed class DatabaseAwayTests : IDisposable
{
    private static readonly OutboxOptions Hurry = new() { InitialBackoff = TimeSpan.FromMilliseconds(50), MaxBackoff = TimeSpan.FromSeconds(1) };

    private readonly PostgresCluster _cluster = new();
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-away-");
    private readonly List<V1.PostReadingRequest> _accepted = [];

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose()
    {
        _cluster.Dispose();
        _folder.Delete(recursive: true);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Database_GoesAwayAndComesBack_OutboxWaitsAndCatchesUp(bool crashes)
    {
        using var server = await ServerProcess.StartAsync(new ServerSetUp(PostgresConnectionString.Describe(_cluster.CreateDatabase())), Token);
        await using var client = ClearViewClient.Connect(server.Address);
        using var outbox = ReadingOutbox.Open(_folder.FullName, Hurry);
        var finished = new TaskCompletionSource();
        var sending = new OutboxPump(outbox, new StreamReadingSender(client), Hurry).RunAsync(finished.Task, Token);
        var readings = new ReadingMaker("line 1", seed: 7);

        Accept(outbox, readings.Next(20));
        await WaitUntilAsync(() => outbox.IsEmpty);
        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, await StatusAsync(server));

        if (crashes)
        {
            _cluster.Kill();
        }
        else
        {
            _cluster.Stop();
        }

        Accept(outbox, readings.Next(20));
        await WaitUntilAsync(async () => await StatusAsync(server) == HealthCheckResponse.Types.ServingStatus.NotServing);
        Assert.False(outbox.IsEmpty);

        _cluster.Start();
        Accept(outbox, readings.Next(20));
        finished.SetResult();
        await sending.WaitAsync(TimeSpan.FromSeconds(60), Token);

        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, await StatusAsync(server));
        Assert.Empty(OutboxStatus.Read(_folder.FullName).Refused);
        await Inventory.CheckAsync(server.Address, _accepted, Token);
    }

    private void Accept(ReadingOutbox outbox, List<V1.PostReadingRequest> readings)
    {
        outbox.Accept(readings);
        _accepted.AddRange(readings);
    }

    private static async Task<HealthCheckResponse.Types.ServingStatus> StatusAsync(ServerProcess server)
    {
        using var channel = server.Connect();
        return (await new Health.HealthClient(channel).CheckAsync(new HealthCheckRequest(), cancellationToken: Token)).Status;
    }

    private static Task WaitUntilAsync(Func<bool> isSo) => WaitUntilAsync(() => Task.FromResult(isSo()));

    private static async Task WaitUntilAsync(Func<Task<bool>> isSo)
    {
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(Token);
        patience.CancelAfter(TimeSpan.FromSeconds(60));
        while (!await isSo())
        {
            await Task.Delay(20, patience.Token);
        }
    }
}
