using ClearView.Records.Model;
using ClearView.Records.Tests.Behaviour;

using Npgsql;

namespace ClearView.Records.Tests.Postgres;

/// <summary>A writer whose session loses its claim to the chain in the middle of a batch.</summary>
public sealed class WriterClaimTests(PostgresCluster cluster) : IAsyncDisposable
{
    private const int Batch = 20;

    private readonly TemporaryPostgresStore _temporary = new(cluster);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public async Task Claim_LostInTheMiddle_AndTakenByAnotherServer_RepeatsTheBatchWithAnotherChain_NothingTwice()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        await using var other = await _temporary.OpenAnotherAsync();
        AddGate("PERFORM pg_advisory_unlock_all();");
        var gate = await CloseGateAsync();
        Assert.Equal(1L, ClaimedChains());

        var posting = PostAsync();
        await ArrivalAsync();
        Assert.Equal(0L, ClaimedChains());
        await other.Readings.AppendAsync(TemporaryStore.Entry(2), Token);
        await gate.DisposeAsync();
        var outcomes = await posting.WaitAsync(Token);

        await AssertStoredOnceAsync(outcomes);
        Assert.Equal(1L, _temporary.Scalar($"SELECT chain FROM link WHERE kind = 'reading' AND number = (SELECT sequence FROM reading_id WHERE id = '{TemporaryStore.Id(2)}')"));
        Assert.Equal((long)Batch, _temporary.Scalar("SELECT count(*) FROM link JOIN reading ON sequence = number WHERE kind = 'reading' AND chain = 2 AND lot = 'gated'"));
    }

    [Fact]
    public async Task Session_EndedInTheMiddle_RepeatsTheBatchOnANewOne_NothingTwice()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        await using var other = await _temporary.OpenAnotherAsync();
        AddGate("");
        var gate = await CloseGateAsync();

        var posting = PostAsync();
        var ended = await ArrivalAsync();
        Assert.Equal(true, _temporary.Scalar($"SELECT pg_terminate_backend({ended})"));

        // The batch arrives again, through another session.
        Assert.NotEqual(ended, await ArrivalAsync(except: ended));
        await other.Readings.AppendAsync(TemporaryStore.Entry(2), Token);
        await gate.DisposeAsync();
        var outcomes = await posting.WaitAsync(Token);

        await AssertStoredOnceAsync(outcomes);
    }

    // Readings of the lot "gated" wait before they are written, as long as somebody holds the gate.
    private void AddGate(string before) => _temporary.Scalar(
        $"""
        CREATE FUNCTION wait_at_gate() RETURNS trigger LANGUAGE plpgsql AS $$
        BEGIN
            IF NEW.lot = 'gated' AND NOT pg_try_advisory_xact_lock_shared(4711) THEN
                {before}
                PERFORM pg_advisory_xact_lock_shared(4711);
            END IF;
            RETURN NEW;
        END
        $$;
        CREATE TRIGGER gate BEFORE INSERT ON reading FOR EACH ROW EXECUTE FUNCTION wait_at_gate();
        """);

    // Open again when the connection is.
    private async Task<NpgsqlConnection> CloseGateAsync()
    {
        var connection = new NpgsqlConnection(_temporary.ConnectionString + ";Pooling=false");
        await connection.OpenAsync(Token);
        await using var close = new NpgsqlCommand("SELECT pg_advisory_lock(4711)", connection);
        await close.ExecuteNonQueryAsync(Token);
        return connection;
    }

    private Task<AppendOutcome[]> PostAsync() => Task.WhenAll(Enumerable.Range(0, Batch).Select(number =>
        _temporary.Store.AppendAsync(TemporaryStore.Entry(100 + number, entry => entry with { Lot = "gated" }), Token)));

    // The session that waits at the gate.
    private async Task<int> ArrivalAsync(int except = 0)
    {
        while (true)
        {
            if (_temporary.Scalar($"SELECT pid FROM pg_locks WHERE locktype = 'advisory' AND objid = 4711 AND NOT granted AND pid <> {except}") is int waiting)
            {
                return waiting;
            }

            await Task.Delay(20, Token);
        }
    }

    private object? ClaimedChains() => _temporary.Scalar(
        "SELECT count(*) FROM pg_locks WHERE locktype = 'advisory' AND classid = x'434C4E4B'::int::oid AND database = (SELECT oid FROM pg_database WHERE datname = current_database())");

    private async Task AssertStoredOnceAsync(AppendOutcome[] outcomes)
    {
        Assert.All(outcomes, outcome => Assert.False(outcome.AlreadyStored));
        Assert.Equal(Batch, outcomes.Select(outcome => outcome.Reading.Sequence).Distinct().Count());
        foreach (var (table, rows) in new[] { ("reading_id", Batch + 2L), ("reading", Batch + 2L), ("series_value", 2 * (Batch + 2L)) })
        {
            Assert.Equal(rows, _temporary.Scalar($"SELECT count(*) FROM {table}"));
        }

        Assert.Equal(Batch + 2L, _temporary.Scalar("SELECT count(*) FROM link WHERE kind = 'reading'"));
        _temporary.AssertIntact();
        var report = await _temporary.Opened.Audit.VerifyAsync([], progress: null, Token);
        Assert.Null(report.Break);
        Assert.Equal(Batch + 2L, report.Readings);
    }
}
