using ClearView.Records.Model;
using ClearView.Records.Tests.Behaviour;

using Npgsql;

namespace ClearView.Records.Tests.Postgres;

/// <summary>What a server is told of the readings that others recorded in its database.</summary>
public sealed class OthersTests(PostgresCluster cluster) : IAsyncDisposable
{
    private static readonly HashSet<long> None = [];

    private readonly TemporaryPostgresStore _temporary = new(cluster);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public async Task ListOthers_GivesWhatOthersStored_WithTheValuesAskedFor_AndNothingOfItsOwn()
    {
        await using var first = await _temporary.OpenAnotherAsync();
        await using var second = await _temporary.OpenAnotherAsync();
        var ownBefore = await AppendAsync(first, 1);
        Assert.False(first.Recorded.MayHoldOthers(0, ownBefore + 1));
        var others = await AppendAsync(second, 2);
        await AppendAsync(second, 3, entry => entry with { Values = [new MeasurandValue("yellowness", 1)] });
        var ownBehind = await AppendAsync(first, 4);

        Assert.True(first.Recorded.MayHoldOthers(ownBefore, ownBehind));
        var page = await first.Recorded.ListOthersAsync(new OthersQuery(0, None, ["haze"]), Token);

        var (sequence, entry) = Assert.Single(page.Readings);
        Assert.Equal((others, TemporaryStore.Id(2)), (sequence, entry.Id));
        var stored = TemporaryStore.Entry(2);
        Assert.Equal(
            (stored.MeasuredAt, stored.Line, stored.Product, stored.Lot, stored.Roll, stored.Instrument),
            (entry.MeasuredAt, entry.Line, entry.Product, entry.Lot, entry.Roll, entry.Instrument));
        Assert.Equal([new MeasurandValue("haze", 0.02)], entry.Values);
        Assert.Equal((ownBehind, false), (page.Through, page.IsBroken));
        Assert.Empty((await first.Recorded.ListOthersAsync(new OthersQuery(0, new HashSet<long> { others }, ["haze"]), Token)).Readings);
    }

    [Fact]
    public async Task ListOthers_WhileALowerPlaceIsNotCommitted_GivesWhatIsThere_AndTheLateOneNextTime()
    {
        await using var first = await _temporary.OpenAnotherAsync();
        await using var second = await _temporary.OpenAnotherAsync();
        await using var third = await _temporary.OpenAnotherAsync();
        var start = await AppendAsync(first, 1);
        await AppendAsync(second, 2, entry => entry with { MeasuredAt = TemporaryStore.Noon.AddMonths(1) });
        var known = await second.Recorded.CompleteAsync(Token);

        // A lock on its month holds the first server's transaction after it has taken its place.
        await using var holder = new NpgsqlConnection(_temporary.ConnectionString + ";Search Path=clearview;Pooling=false");
        await holder.OpenAsync(Token);
        await using var hold = await holder.BeginTransactionAsync(Token);
        await using (var command = new NpgsqlCommand("LOCK TABLE reading_2026_03 IN SHARE MODE", holder))
        {
            await command.ExecuteNonQueryAsync(Token);
        }

        var held = AppendAsync(first, 3);
        while (_temporary.Scalar("SELECT count(*) FROM pg_locks WHERE NOT granted AND relation = 'reading_2026_03'::regclass") is not 1L)
        {
            await Task.Delay(10, Token);
        }

        var overtaking = await AppendAsync(second, 4, entry => entry with { MeasuredAt = TemporaryStore.Noon.AddMonths(1) });
        var early = await third.Recorded.ListOthersAsync(new OthersQuery(known, None, ["haze"]), Token);
        Assert.Equal([overtaking], early.Readings.Select(reading => reading.Sequence));
        Assert.Equal(known, early.Through);

        await hold.RollbackAsync(Token);
        var late = await held;
        var rest = await third.Recorded.ListOthersAsync(new OthersQuery(early.Through, new HashSet<long> { overtaking }, ["haze"]), Token);

        Assert.True(start < late && late < overtaking);
        Assert.Equal([late], rest.Readings.Select(reading => reading.Sequence));
        Assert.Equal(overtaking, rest.Through);
    }

    [Fact]
    public async Task ListOthers_CorrectionBehindAFloorThatHangs_IsBrokenOnceAndNotWhereItIsKnown()
    {
        await using var first = await _temporary.OpenAnotherAsync();
        await using var second = await _temporary.OpenAnotherAsync();
        await AppendAsync(first, 1);
        var known = await AppendAsync(second, 2);
        await using var holder = new NpgsqlConnection(_temporary.ConnectionString + ";Search Path=clearview;Pooling=false");
        await holder.OpenAsync(Token);
        await using (var hang = new NpgsqlCommand("SELECT pg_advisory_lock_shared(-1 - 2 * @floor)", holder))
        {
            hang.Parameters.AddWithValue("floor", known);
            await hang.ExecuteNonQueryAsync(Token);
        }

        var correction = await AppendAsync(second, 3, entry => entry with { Corrects = TemporaryStore.Id(1), CorrectionNote = new byte[] { 1 } });

        var broken = await first.Recorded.ListOthersAsync(new OthersQuery(known, None, ["haze"]), Token);
        Assert.Equal((true, known), (broken.IsBroken, broken.Through));
        Assert.Equal([correction], broken.Seen);
        var later = await AppendAsync(second, 4);
        var rest = await first.Recorded.ListOthersAsync(new OthersQuery(broken.Through, broken.Seen.ToHashSet(), ["haze"]), Token);
        Assert.Equal((false, known), (rest.IsBroken, rest.Through));
        Assert.Equal([later], rest.Readings.Select(reading => reading.Sequence));
        Assert.Equal([later], rest.Seen);
    }

    private static async Task<long> AppendAsync(IStore store, int number, Func<ReadingEntry, ReadingEntry>? change = null) =>
        (await store.Readings.AppendAsync(TemporaryStore.Entry(number, change), Token)).Reading.Sequence;
}
