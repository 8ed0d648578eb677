using ClearView.Client;
using ClearView.EndToEnd.Tests.Lines;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.Records.Postgres;
using ClearView.Records.Tests.Postgres;

namespace ClearView.EndToEnd.Tests.Faults;

/// <summary>Three servers on one database, and clients that call them in turn.</summary>
public sealed class SeveralServersTests(PostgresCluster cluster) : IAsyncLifetime
{
    private const int Servers = 3;
    private const int Lines = 4;

    private readonly ServerProcess[] _servers = new ServerProcess[Servers];
    private readonly string _store = PostgresConnectionString.Describe(cluster.CreateDatabase());

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private ServerAddresses Addresses => ServerAddresses.Parse(string.Join(',', _servers.Select(server => server.Address.Authority)));

    public async ValueTask InitializeAsync()
    {
        // All at once: the first start makes the schema, whichever of them it is.
        var starting = Enumerable.Range(0, Servers).Select(_ => ServerProcess.StartAsync(new ServerSetUp(_store), Token)).ToList();
        for (var i = 0; i < Servers; i++)
        {
            _servers[i] = await starting[i];
        }
    }

    public ValueTask DisposeAsync()
    {
        foreach (var server in _servers)
        {
            server.Dispose();
        }

        return ValueTask.CompletedTask;
    }

    [Fact]
    public async Task Kill_OneServerAfterTheOther_LosesAndDuplicatesNothingAndFailsNoCall()
    {
        await using var posting = new Posting(Addresses, Lines, Token);
        for (var i = 0; i < Servers; i++)
        {
            await posting.WaitForAsync(10);
            await _servers[i].KillAsync();
            await posting.WaitForAsync(10);
            await StartAgainAsync(i);
        }

        await posting.WaitForAsync(10);
        await posting.StopAsync();

        Assert.Empty(posting.Lines.SelectMany(line => line.Failures).Select(failure => failure.Message));
        await CheckEveryServerAsync(posting);
    }

    [Fact]
    public async Task Restart_OneServerAfterTheOther_FailsNoCall()
    {
        await using var posting = new Posting(Addresses, Lines, Token);
        for (var i = 0; i < Servers; i++)
        {
            await posting.WaitForAsync(10);
            var (exitCode, log) = await _servers[i].TerminateAsync();
            Assert.Equal(0, exitCode);
            Assert.DoesNotContain("fail:", log, StringComparison.Ordinal);
            await posting.WaitForAsync(10);
            await StartAgainAsync(i);
        }

        await posting.WaitForAsync(10);
        await posting.StopAsync();

        Assert.Empty(posting.Lines.SelectMany(line => line.Failures).Select(failure => failure.Message));
        await CheckEveryServerAsync(posting);
    }

    // On the port that clients know.
    private async Task StartAgainAsync(int index)
    {
        var listen = _servers[index].Address.Authority;
        _servers[index].Dispose();
        _servers[index] = await ServerProcess.StartAsync(new ServerSetUp(_store) { Listen = listen }, Token);
    }

    private async Task CheckEveryServerAsync(Posting posting)
    {
        foreach (var server in _servers)
        {
            await Inventory.CheckAsync(server.Address, posting.Lines, Token);
        }
    }
}
