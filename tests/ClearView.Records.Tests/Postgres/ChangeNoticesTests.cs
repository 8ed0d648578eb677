using ClearView.Records.Model;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

/// <summary>One server hears what another one stored, without looking. The cluster is the test's own, since it is stopped.</summary>
public sealed class ChangeNoticesTests : IAsyncDisposable
{
    private readonly PostgresCluster _cluster = new();
    private readonly TemporaryPostgresStore _temporary;

    public ChangeNoticesTests() => _temporary = new TemporaryPostgresStore(_cluster);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        await _temporary.DisposeAsync();
        _cluster.Dispose();
    }

    // The waiter has no end of its own: without a notice it would wait for ever.
    [Fact]
    public async Task Changed_AnotherServerStoresOrSettles_IsWoken_AlsoAfterARestartOfTheDatabase()
    {
        await using var teller = await _temporary.OpenAnotherAsync();
        await using var hearer = await _temporary.OpenAnotherAsync();
        await ListensAsync(hearer);

        var stored = await WakesAsync(hearer, () => teller.Readings.AppendAsync(TemporaryStore.Entry(1, entry => entry with { AwaitsSignals = true }), Token));
        Assert.Equal(0, await hearer.Recorded.LastAsync(Token));
        await WakesAsync(hearer, () => SettleAsync(teller, stored.Reading));
        while (await hearer.Recorded.LastAsync(Token) != stored.Reading.Sequence)
        {
            await hearer.Recorded.Changed.WaitAsync(Token);
        }

        var lost = hearer.Recorded.Changed;
        _cluster.Stop();
        _cluster.Start();
        await lost.WaitAsync(Token);
        await WakesAsync(hearer, () => teller.Readings.AppendAsync(TemporaryStore.Entry(2), Token));
    }

    [Fact]
    public async Task Changed_ManyStoredOneAfterTheOther_TheLastIsNotLost()
    {
        await using var teller = await _temporary.OpenAnotherAsync();
        await using var hearer = await _temporary.OpenAnotherAsync();
        await ListensAsync(hearer);
        var posting = Task.Run(
            async () =>
            {
                for (var number = 0; number < 100; number++)
                {
                    await teller.Readings.AppendAsync(TemporaryStore.Entry(number), Token);
                }
            },
            Token);

        var seen = 0;
        var query = new RecordedQuery();
        while (seen < 100)
        {
            var changed = hearer.Recorded.Changed;
            var page = await hearer.Recorded.ListAsync(query, Token);
            seen += page.Readings.Length;
            query = query with { After = page.Through };
            if (seen < 100)
            {
                await changed.WaitAsync(Token);
            }
        }

        await posting;
        Assert.Equal(100, seen);
    }

    // Listening begins with the first wait, and tells once that it has begun.
    private static Task ListensAsync(IStore store) => store.Recorded.Changed.WaitAsync(Token);

    private static async Task<T> WakesAsync<T>(IStore hearer, Func<Task<T>> change)
    {
        var changed = hearer.Recorded.Changed;
        var outcome = await change();
        await changed.WaitAsync(Token);
        return outcome;
    }

    private static async Task<bool> SettleAsync(IStore store, StoredReading reading)
    {
        await store.Recorded.SettleAsync(reading, ReadOnlyMemory<byte>.Empty);
        return true;
    }
}
