using ClearView.Records.Model;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

/// <summary>What the store does while its database is away. The cluster is the test's own.</summary>
public sealed class OutageTests : IAsyncDisposable
{
    private readonly PostgresCluster _cluster = new();
    private readonly TemporaryPostgresStore _temporary;

    public OutageTests() => _temporary = new TemporaryPostgresStore(_cluster);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        await _temporary.DisposeAsync();
        _cluster.Dispose();
    }

    [Fact]
    public async Task Database_StoppedAndStartedAgain_IsUnavailableMeanwhileAndRecoversByItself()
    {
        var store = _temporary.Store;
        await store.AppendAsync(TemporaryStore.Entry(1), Token);
        _cluster.Stop();

        await Assert.ThrowsAsync<StoreUnavailableException>(() => store.CheckAsync(Token));
        await Assert.ThrowsAsync<StoreUnavailableException>(() => store.FindAsync(TemporaryStore.Id(1), Token));
        await Assert.ThrowsAsync<StoreUnavailableException>(() => store.AppendAsync(TemporaryStore.Entry(2), Token));
        await Assert.ThrowsAsync<StoreUnavailableException>(() => _temporary.OpenAnotherAsync());

        _cluster.Start();
        await store.CheckAsync(Token);
        Assert.False((await store.AppendAsync(TemporaryStore.Entry(2), Token)).AlreadyStored);
        Assert.NotNull(await store.FindAsync(TemporaryStore.Id(1), Token));
    }

    [Fact]
    public async Task Database_RestartedBetweenTwoCalls_IsNotNoticed()
    {
        var store = _temporary.Store;
        await store.AppendAsync(TemporaryStore.Entry(1), Token);
        await store.FindAsync(TemporaryStore.Id(1), Token);
        _cluster.Stop();
        _cluster.Start();

        Assert.NotNull(await store.FindAsync(TemporaryStore.Id(1), Token));
        Assert.False((await store.AppendAsync(TemporaryStore.Entry(2), Token)).AlreadyStored);
    }

    [Fact]
    public async Task Database_RestartedBeforeSignalsAreSettled_NextReadingIsStoredAllTheSame()
    {
        var store = _temporary.Store;
        var stored = await store.AppendAsync(TemporaryStore.Entry(1) with { AwaitsSignals = true }, Token);
        _cluster.Stop();
        _cluster.Start();

        await _temporary.Opened.Recorded.SettleAsync(stored.Reading, ReadOnlyMemory<byte>.Empty);

        Assert.False((await store.AppendAsync(TemporaryStore.Entry(2), Token)).AlreadyStored);
        Assert.False((await store.AppendAsync(TemporaryStore.Entry(3), Token)).AlreadyStored);
    }

    [Fact]
    public async Task Database_KilledWhileReadingsArePosted_HasEverythingThatWasAcknowledged()
    {
        var store = _temporary.Store;
        var acknowledged = new System.Collections.Concurrent.ConcurrentBag<int>();
        var enough = new TaskCompletionSource();
        var posting = Task.WhenAll(Enumerable.Range(0, 16).Select(writer => Task.Run(
            async () =>
            {
                for (var number = writer; ; number += 16)
                {
                    try
                    {
                        await store.AppendAsync(TemporaryStore.Entry(number), Token);
                    }
                    catch (StoreUnavailableException)
                    {
                        return;
                    }

                    acknowledged.Add(number);
                    if (acknowledged.Count >= 500)
                    {
                        enough.TrySetResult();
                    }
                }
            },
            Token)));
        await enough.Task.WaitAsync(Token);
        _cluster.Kill();
        await posting.WaitAsync(Token);

        _cluster.Start();
        await store.CheckAsync(Token);
        foreach (var number in acknowledged)
        {
            AppendBehaviour.AssertSame(TemporaryStore.Entry(number), (await store.FindAsync(TemporaryStore.Id(number), Token))!.Entry);
        }

        _temporary.AssertIntact();
    }
}
