using ClearView.Records.Model;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

/// <summary>Identifiers are taken once, with the guards across lines and with the plain indexes that stand for them on many machines.</summary>
public sealed class IdentifierGuardTests(PostgresCluster cluster) : IAsyncDisposable
{
    private readonly TemporaryPostgresStore _temporary = new(cluster);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Append_SameIdentifier_AgainAndOnAnotherLine_IsAlreadyStored(bool hasGuard)
    {
        await PrepareAsync(hasGuard);
        await _temporary.Store.AppendAsync(Entry(1, "line 1"), Token);

        var again = await _temporary.Store.AppendAsync(Entry(1, "line 1"), Token);
        var elsewhere = await _temporary.Store.AppendAsync(Entry(1, "line 2"), Token);

        Assert.True(again.AlreadyStored);
        Assert.True(elsewhere.AlreadyStored);
        Assert.Equal("line 1", elsewhere.Reading.Entry.Line);
        await AssertHoldsAsync(1);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Append_SameIdentifiersOfOneLine_ThroughServersAtOnce_StoresEachOnce(bool hasGuard)
    {
        await PrepareAsync(hasGuard);
        var outcomes = await AppendThroughServersAsync(_ => "line 1");

        Assert.Equal(200, outcomes.Count(outcome => !outcome.AlreadyStored));
        await AssertHoldsAsync(200);
    }

    [Fact]
    public async Task Append_SameIdentifiersOfManyLines_ThroughServersAtOnce_StoresEachOnce()
    {
        var outcomes = await AppendThroughServersAsync(server => "line " + server);

        Assert.Equal(200, outcomes.Count(outcome => !outcome.AlreadyStored));
        Assert.All(outcomes.GroupBy(outcome => outcome.Reading.Entry.Id), same => Assert.Single(same.Select(outcome => outcome.Reading.Entry.Line).Distinct()));
        await AssertHoldsAsync(200);
    }

    [Fact]
    public async Task Find_OfAnIdentifierThatTwoLinesTookAtTheSameMoment_GivesTheFirst()
    {
        await PrepareAsync(hasGuard: false);
        await _temporary.Store.AppendAsync(Entry(1, "line 2"), Token);
        await _temporary.Store.AppendAsync(Entry(2, "line 1"), Token);

        // As the other server writes it that looked before the first had committed.
        _temporary.Scalar($"INSERT INTO reading_id (id, line, measured_at, sequence) SELECT '{TemporaryStore.Id(1)}', line, measured_at, 3 FROM reading_id WHERE sequence = 2");

        Assert.Equal("line 2", (await _temporary.Store.FindAsync(TemporaryStore.Id(1), Token))!.Entry.Line);
        Assert.Null(await _temporary.Store.FindRetiredAsync(TemporaryStore.Id(1), Token));
        Assert.True((await _temporary.Store.AppendAsync(Entry(1, "line 1"), Token)).AlreadyStored);
    }

    private static ReadingEntry Entry(int number, string line) => TemporaryStore.Entry(number, entry => entry with { Line = line });

    private async Task PrepareAsync(bool hasGuard)
    {
        await _temporary.Store.CheckAsync(Token);
        if (!hasGuard)
        {
            // As docs/operating.md has it.
            _temporary.Scalar(
                """
                BEGIN;
                DROP INDEX clearview.reading_id_guard, clearview.link_of_record;
                CREATE INDEX reading_id_by_id ON clearview.reading_id (id);
                CREATE INDEX link_by_record ON clearview.link (kind, name, number);
                COMMIT;
                """);
        }
    }

    // Each server in an order of its own, so that they meet in the middle.
    private async Task<AppendOutcome[]> AppendThroughServersAsync(Func<int, string> lineOf)
    {
        const int servers = 4;
        var stores = await Task.WhenAll(Enumerable.Range(0, servers).Select(_ => _temporary.OpenAnotherAsync()));
        var outcomes = await Task.WhenAll(stores.SelectMany((store, server) => Enumerable.Range(0, 200)
            .Select(place => server % 2 == 0 ? place : 199 - place)
            .Select(number => store.Readings.AppendAsync(Entry(number, lineOf(server)), Token))));
        foreach (var store in stores)
        {
            await store.DisposeAsync();
        }

        return outcomes;
    }

    private async Task AssertHoldsAsync(long readings)
    {
        Assert.Equal(readings, _temporary.Scalar("SELECT count(*) FROM reading_id"));
        Assert.Equal(readings, _temporary.Scalar("SELECT count(*) FROM reading"));
        _temporary.AssertIntact();
        var report = await _temporary.Opened.Audit.VerifyAsync([], progress: null, Token);
        Assert.Null(report.Break);
        Assert.Equal(readings, report.Readings);
    }
}
