using ClearView.Records.Model;
using ClearView.Records.Tests.Behaviour;

using Npgsql;

namespace ClearView.Records.Tests.Postgres;

/// <summary>Readings that await their signals, while other writes fail or another server does the same.</summary>
public sealed class AwaitedSignalsTests(PostgresCluster cluster) : IAsyncDisposable
{
    private readonly TemporaryPostgresStore _temporary = new(cluster);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    // Codes of PostgreSQL, appendix A: serialization failure, deadlock, a cancelled statement, a constraint.
    [Theory]
    [InlineData("40001", true)]
    [InlineData("40P01", true)]
    [InlineData("57014", false)]
    [InlineData("23514", false)]
    public async Task List_AnotherWriteThatClashesOnce_StillHoldsUpWhatAwaitsItsSignals(string state, bool isRepeated)
    {
        var awaiting = await _temporary.Store.AppendAsync(TemporaryStore.Entry(1, entry => entry with { AwaitsSignals = true }), Token);
        _temporary.Scalar(
            $"""
            CREATE SEQUENCE clashes;
            CREATE FUNCTION clash() RETURNS trigger LANGUAGE plpgsql AS $$
            BEGIN
                IF nextval('clearview.clashes') = 1 THEN
                    RAISE EXCEPTION 'made by the test' USING ERRCODE = '{state}';
                END IF;
                RETURN NEW;
            END
            $$;
            CREATE TRIGGER clash BEFORE INSERT ON reading FOR EACH ROW EXECUTE FUNCTION clash();
            """);

        var error = await Record.ExceptionAsync(() => _temporary.Store.AppendAsync(TemporaryStore.Entry(2), Token));

        Assert.Equal(isRepeated, error is null);
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(3), Token);
        Assert.Equal(0L, await _temporary.Opened.Recorded.LastAsync(Token));
        await _temporary.Opened.Recorded.SettleAsync(awaiting.Reading, new byte[] { 6 });
        Assert.Equal(isRepeated ? 3 : 2, (await _temporary.Opened.Recorded.ListAsync(new RecordedQuery(), Token)).Readings.Length);
    }

    [Fact]
    public async Task Settle_WhileAnotherServerStoresTheSameSignals_LeavesOneRowAndOneLink()
    {
        var left = await _temporary.Store.AppendAsync(TemporaryStore.Entry(1, entry => entry with { AwaitsSignals = true }), Token);
        await using var other = new NpgsqlConnection(_temporary.ConnectionString + ";Search Path=clearview;Pooling=false");
        await other.OpenAsync(Token);
        var transaction = await other.BeginTransactionAsync(Token);
        await using (var insert = new NpgsqlCommand("INSERT INTO reading_signal (line, sequence, signals) VALUES (@line, @sequence, '\\x06')", other, transaction))
        {
            insert.Parameters.AddWithValue("line", left.Reading.Entry.Line);
            insert.Parameters.AddWithValue("sequence", left.Reading.Sequence);
            await insert.ExecuteNonQueryAsync(Token);
        }

        var settling = _temporary.Opened.Recorded.SettleAsync(left.Reading, new byte[] { 6 });
        while (_temporary.Scalar("SELECT count(*) FROM pg_stat_activity WHERE datname = current_database() AND wait_event_type = 'Lock'") is not 1L)
        {
            Assert.False(settling.IsCompleted);
            await Task.Delay(5, Token);
        }

        await transaction.CommitAsync(Token);
        await settling.WaitAsync(Token);

        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM reading_signal"));
        Assert.Equal(0L, _temporary.Scalar("SELECT count(*) FROM link WHERE kind = 'signals'"));
        Assert.Equal(0L, _temporary.Scalar("SELECT count(*) FROM awaited_signal"));
    }
}
