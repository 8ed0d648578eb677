using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Schema;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

public sealed class SchemaTests(PostgresCluster cluster) : IAsyncDisposable
{
    private readonly TemporaryPostgresStore _temporary = new(cluster);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public void All_AreNumberedFromOneWithoutGaps() =>
        Assert.Equal(Enumerable.Range(1, Migration.OfPostgres.Length), Migration.OfPostgres.Select(migration => migration.Version));

    [Fact]
    public async Task Open_ServersAtOnce_TakeEachStepOnceAndShareTheStore()
    {
        var stores = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => Task.Run(_temporary.OpenAnotherAsync, Token)));

        // Each posts into the same new months at once.
        await Task.WhenAll(stores.SelectMany((store, server) => Enumerable.Range(0, 24).Select(month => store.Readings.AppendAsync(
            TemporaryStore.Entry(100 * server + month, entry => entry with { MeasuredAt = TemporaryStore.Noon.AddMonths(month) }), Token))));
        foreach (var store in stores)
        {
            await store.DisposeAsync();
        }

        Assert.Equal((long)Migration.OfPostgres.Length, _temporary.Scalar("SELECT count(*) FROM migration"));
        Assert.Equal(6 * 24L, _temporary.Scalar("SELECT count(*) FROM reading"));
        Assert.Equal(24L, _temporary.Scalar("SELECT count(*) FROM pg_inherits WHERE inhparent = 'reading'::regclass"));
        Assert.Equal(24L, _temporary.Scalar("SELECT count(*) FROM pg_inherits WHERE inhparent = 'series_value'::regclass"));
        _temporary.AssertIntact();
    }

    [Fact]
    public async Task Append_AtTheEdgesOfAMonth_GoesIntoItsPart()
    {
        var edge = new DateTimeOffset(2026, 4, 1, 0, 0, 0, TimeSpan.Zero);
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1, entry => entry with { MeasuredAt = edge.AddTicks(-1) }), Token);
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(2, entry => entry with { MeasuredAt = edge.ToOffset(TimeSpan.FromHours(-5)) }), Token);

        Assert.Equal(TemporaryStore.Id(1), _temporary.Scalar("SELECT id FROM reading_2026_03"));
        Assert.Equal(TemporaryStore.Id(2), _temporary.Scalar("SELECT id FROM reading_2026_04"));
        Assert.Equal(2L, _temporary.Scalar("SELECT count(*) FROM series_value_2026_04"));
    }

    [Fact]
    public async Task Append_SameIdOfAnotherLineAndMonth_IsAlreadyStored()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);

        var outcome = await _temporary.Store.AppendAsync(
            TemporaryStore.Entry(1, entry => entry with { Line = "line 2", MeasuredAt = TemporaryStore.Noon.AddMonths(5) }), Token);

        Assert.True(outcome.AlreadyStored);
        Assert.Equal("line 1", outcome.Reading.Entry.Line);
    }

    [Fact]
    public async Task Append_OnADatabaseThatDefaultsToNoFlush_StillWaitsForTheFlush()
    {
        await _temporary.Store.CheckAsync(Token);
        await _temporary.CloseAsync();
        _temporary.Scalar("DO $$ BEGIN EXECUTE format('ALTER DATABASE %I SET synchronous_commit = off', current_database()); END $$");

        // What the writer's session says at the moment of writing, through a trigger that notes it down.
        _temporary.Scalar(
            """
            CREATE TABLE seen (setting text);
            CREATE FUNCTION note() RETURNS trigger LANGUAGE plpgsql AS 'BEGIN INSERT INTO clearview.seen VALUES (current_setting(''synchronous_commit'')); RETURN NEW; END';
            CREATE TRIGGER note BEFORE INSERT ON reading_id FOR EACH ROW EXECUTE FUNCTION note();
            """);
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);

        Assert.Equal("off", _temporary.Scalar("SHOW synchronous_commit"));
        Assert.Equal("on", _temporary.Scalar("SELECT setting FROM seen"));
    }

    // A server machine that is gone without a word must not keep its locks: the database probes the writer's connection.
    [Fact]
    public async Task Append_OnADatabaseThatDoesNotProbe_StillHasTheWritersConnectionProbed()
    {
        await _temporary.Store.CheckAsync(Token);
        await _temporary.CloseAsync();
        _temporary.Scalar(
            """
            DO $$ BEGIN
                EXECUTE format('ALTER DATABASE %I SET tcp_keepalives_idle = 7200', current_database());
                EXECUTE format('ALTER DATABASE %I SET tcp_keepalives_interval = 75', current_database());
                EXECUTE format('ALTER DATABASE %I SET tcp_keepalives_count = 9', current_database());
            END $$;
            CREATE TABLE seen (settings text);
            CREATE FUNCTION note() RETURNS trigger LANGUAGE plpgsql AS 'BEGIN INSERT INTO clearview.seen VALUES (concat_ws('' '', current_setting(''tcp_keepalives_idle''), current_setting(''tcp_keepalives_interval''), current_setting(''tcp_keepalives_count''), current_setting(''idle_in_transaction_session_timeout''))); RETURN NEW; END';
            CREATE TRIGGER note BEFORE INSERT ON reading_id FOR EACH ROW EXECUTE FUNCTION note();
            """);
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);

        Assert.Equal("7200", _temporary.Scalar("SHOW tcp_keepalives_idle"));
        Assert.Equal("10 5 3 30s", _temporary.Scalar("SELECT settings FROM seen"));
    }

    [Fact]
    public async Task Open_NewerSchema_IsRefusedAndNamesBothVersions()
    {
        await _temporary.Store.CheckAsync(Token);
        await _temporary.CloseAsync();
        _temporary.Scalar("INSERT INTO migration (version) VALUES (99)");

        var error = await Assert.ThrowsAsync<StoreFormatException>(_temporary.OpenAnotherAsync);

        Assert.Contains("schema version 99", error.Message, StringComparison.Ordinal);
        Assert.Contains($"up to {Migration.OfPostgres.Length}", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_SchemaOfAnotherApplication_IsRefusedUntouched()
    {
        _temporary.Scalar("CREATE SCHEMA clearview; CREATE TABLE clearview.accounts (id integer)");

        var error = await Assert.ThrowsAsync<StoreFormatException>(_temporary.OpenAnotherAsync);

        Assert.Contains("another application", error.Message, StringComparison.Ordinal);
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM pg_class WHERE relnamespace = 'clearview'::regnamespace"));
    }

    [Fact]
    public async Task Open_StepThatFails_LeavesTheDatabaseAsItWas()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        await _temporary.CloseAsync();
        Migration broken = new(Migration.OfPostgres.Length + 1, "broken.sql", "CREATE TABLE half (a integer); SELECT * FROM nowhere;");

        await Assert.ThrowsAsync<StoreUnavailableException>(() =>
            PostgresStore.OpenAsync(_temporary.ConnectionString, _temporary.Clock, [.. Migration.OfPostgres, broken], Token));

        Assert.Equal(true, _temporary.Scalar("SELECT to_regclass('half') IS NULL"));
        Assert.NotNull(await _temporary.Store.FindAsync(TemporaryStore.Id(1), Token));
    }
}
