using ClearView.Records.Model;
using ClearView.Records.Tests.Behaviour;

using Npgsql;

namespace ClearView.Records.Tests.Postgres;

/// <summary>The order of recording where several servers store into one database.</summary>
public sealed class RecordedOrderTests(PostgresCluster cluster) : IAsyncDisposable
{
    private readonly TemporaryPostgresStore _temporary = new(cluster);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public async Task List_WhileALowerSequenceIsNotCommitted_WaitsForIt_WithoutGapOrRepetition()
    {
        await using var first = await _temporary.OpenAnotherAsync();
        await using var second = await _temporary.OpenAnotherAsync();
        await first.Readings.AppendAsync(InMonth(1, 0), Token);
        await second.Readings.AppendAsync(InMonth(2, 1), Token);
        List<Guid> seen = [];
        var place = await Follow(second, 0, seen);

        // A lock on its month holds the first server's transaction after it has taken its sequence.
        await using var holder = new NpgsqlConnection(_temporary.ConnectionString + ";Search Path=clearview;Pooling=false");
        await holder.OpenAsync(Token);
        await using var hold = await holder.BeginTransactionAsync(Token);
        await ExecuteAsync(holder, "LOCK TABLE reading_2026_03 IN SHARE MODE");
        var held = first.Readings.AppendAsync(InMonth(3, 0), Token);
        await Until(() => _temporary.Scalar("SELECT count(*) FROM pg_locks WHERE NOT granted AND relation = 'reading_2026_03'::regclass") is 1L);
        var overtaking = await second.Readings.AppendAsync(InMonth(4, 1), Token);
        var third = await second.Readings.AppendAsync(InMonth(5, 1), Token);
        place = await Follow(second, place, seen);
        Assert.Equal([TemporaryStore.Id(1), TemporaryStore.Id(2)], seen);

        await hold.RollbackAsync(Token);
        var late = (await held).Reading;
        await Follow(second, place, seen);

        Assert.True(late.Sequence < overtaking.Reading.Sequence && overtaking.Reading.Sequence < third.Reading.Sequence);
        Assert.Equal(Enumerable.Range(1, 5).Select(TemporaryStore.Id), seen);
    }

    [Fact]
    public async Task List_WhileATransactionOfTheSameDatabaseIsOpenThatTakesNoSequence_IsNotHeldUp()
    {
        await using var first = await _temporary.OpenAnotherAsync();
        await using var other = new NpgsqlConnection(_temporary.ConnectionString + ";Pooling=false");
        await other.OpenAsync(Token);
        await using var open = await other.BeginTransactionAsync(Token);
        await ExecuteAsync(other, "SELECT pg_current_xact_id(), pg_advisory_xact_lock(4711)");
        await first.Readings.AppendAsync(InMonth(1, 0), Token);
        List<Guid> seen = [];

        await Follow(first, 0, seen);

        Assert.Equal([TemporaryStore.Id(1)], seen);
    }

    [Fact]
    public async Task List_AReadingOfAnotherServerThatAwaitsSignals_IsThereWithThemOrOnceThatServerIsGone()
    {
        await using var first = await _temporary.OpenAnotherAsync();
        await using var second = await _temporary.OpenAnotherAsync();
        var settled = await first.Readings.AppendAsync(InMonth(1, 0) with { AwaitsSignals = true }, Token);
        await first.Readings.AppendAsync(InMonth(2, 0) with { AwaitsSignals = true }, Token);
        await second.Readings.AppendAsync(InMonth(3, 0), Token);
        List<Guid> seen = [];

        var place = await Follow(second, 0, seen);
        Assert.Empty(seen);
        await first.Recorded.SettleAsync(settled.Reading, new byte[] { 7 });
        place = await Follow(second, place, seen);
        Assert.Equal([TemporaryStore.Id(1)], seen);

        // As a server that is killed: its connections end, and nothing else tells of it.
        _temporary.Scalar("SELECT count(pg_terminate_backend(pid, 5000)) FROM pg_locks WHERE locktype = 'advisory' AND (classid::bigint << 32) | objid::bigint < 0");
        await Follow(second, place, seen);

        Assert.Equal(Enumerable.Range(1, 3).Select(TemporaryStore.Id), seen);
        Assert.Equal(new byte[] { 7 }, (await second.Readings.FindAsync(TemporaryStore.Id(1), Token))!.Signals.ToArray());
    }

    [Fact]
    public async Task List_WhileThreeServersStore_MeetsEachOnceInOrderAndWithItsSignals()
    {
        const int count = 300;
        await using var first = await _temporary.OpenAnotherAsync();
        await using var second = await _temporary.OpenAnotherAsync();
        await using var third = await _temporary.OpenAnotherAsync();
        IStore[] stores = [first, second, third];
        var posting = Task.WhenAll(Enumerable.Range(0, 12).Select(writer => Task.Run(
            async () =>
            {
                var store = stores[writer % 3];
                for (var number = writer; number < count; number += 12)
                {
                    var outcome = await store.Readings.AppendAsync(InMonth(number, number % 4) with { AwaitsSignals = number % 2 == 0 }, Token);
                    if (number % 2 == 0)
                    {
                        await store.Recorded.SettleAsync(outcome.Reading, number % 4 == 0 ? new byte[] { 1 } : ReadOnlyMemory<byte>.Empty);
                    }
                }
            },
            Token)));

        List<StoredReading> seen = [];
        var query = new RecordedQuery { PageSize = 9 };
        while (seen.Count < count)
        {
            var isDone = posting.IsCompleted;
            var page = await third.Recorded.ListAsync(query, Token);
            seen.AddRange(page.Readings);
            query = query with { After = page.Through };
            Assert.False(isDone && !page.HasMore && seen.Count < count, $"only {seen.Count} of {count} readings were met");
        }

        await posting;
        Assert.Equal(seen.Select(reading => reading.Sequence).Order(), seen.Select(reading => reading.Sequence));
        Assert.Equal(Enumerable.Range(0, count).Select(TemporaryStore.Id), seen.Select(reading => reading.Entry.Id).Order());
        Assert.Equal(count / 4, seen.Count(reading => reading.Signals.Length == 1));
        // Keys of two numbers are the chains', which each session holds for as long as it lives.
        Assert.Equal(0L, _temporary.Scalar("SELECT count(*) FROM pg_locks WHERE locktype = 'advisory' AND objsubid = 1 AND database = (SELECT oid FROM pg_database WHERE datname = current_database())"));
    }

    private static ReadingEntry InMonth(int number, int month) =>
        TemporaryStore.Entry(number, entry => entry with { MeasuredAt = TemporaryStore.Noon.AddMonths(month) });

    private static async Task<long> Follow(IStore store, long after, List<Guid> seen)
    {
        var page = await store.Recorded.ListAsync(new RecordedQuery { After = after }, Token);
        seen.AddRange(page.Readings.Select(reading => reading.Entry.Id));
        return page.Through;
    }

    private static async Task Until(Func<bool> condition)
    {
        while (!condition())
        {
            await Task.Delay(10, Token);
        }
    }

    private static async Task ExecuteAsync(NpgsqlConnection connection, string sql)
    {
#pragma warning disable CA2100 // Statements are constants of the tests.
        await using var command = new NpgsqlCommand(sql, connection);
#pragma warning restore CA2100
        await command.ExecuteNonQueryAsync(Token);
    }
}
