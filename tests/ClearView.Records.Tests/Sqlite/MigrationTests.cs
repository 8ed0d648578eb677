using ClearView.Records.Model;
using ClearView.Records.Schema;
using ClearView.Records.Sqlite;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Sqlite;

public sealed class MigrationTests : IAsyncDisposable
{
    private readonly TemporarySqliteStore _temporary = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public void All_AreNumberedFromOneWithoutGaps() =>
        Assert.Equal(Enumerable.Range(1, Migration.OfSqlite.Length), Migration.OfSqlite.Select(migration => migration.Version));

    [Fact]
    public async Task Open_NewFile_HasTheNewestSchemaAndDurableJournal()
    {
        await _temporary.Store.CheckAsync(Token);

        Assert.Equal((long)Migration.OfSqlite.Length, _temporary.Scalar("PRAGMA user_version"));
        Assert.Equal((long)SchemaMigrator.ApplicationId, _temporary.Scalar("PRAGMA application_id"));
        Assert.Equal("wal", _temporary.Scalar("PRAGMA journal_mode"));
    }

    [Fact]
    public async Task Open_OlderSchema_IsBroughtForwardWithItsReadings()
    {
        var entry = TemporaryStore.Entry(1);
        await _temporary.Store.AppendAsync(entry, Token);
        Migration next = new(Migration.OfSqlite.Length + 1, "next.sql", "ALTER TABLE reading ADD COLUMN remark TEXT NOT NULL DEFAULT ''");

        var store = await _temporary.ReopenAsync([.. Migration.OfSqlite, next]);

        Assert.Equal((long)next.Version, _temporary.Scalar("PRAGMA user_version"));
        Assert.Equal("", _temporary.Scalar("SELECT remark FROM reading"));
        AppendBehaviour.AssertSame(entry, (await store.FindAsync(entry.Id, Token))!.Entry);
        await store.AppendAsync(TemporaryStore.Entry(2), Token);
    }

    [Fact]
    public async Task Open_StepThatFails_LeavesTheFileAsItWas()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        Migration broken = new(Migration.OfSqlite.Length + 1, "broken.sql", "CREATE TABLE half (a INTEGER); SELECT * FROM nowhere;");

        await Assert.ThrowsAsync<StoreUnavailableException>(() => _temporary.ReopenAsync([.. Migration.OfSqlite, broken]));

        Assert.Equal((long)Migration.OfSqlite.Length, _temporary.Scalar("PRAGMA user_version"));
        Assert.Equal(0L, _temporary.Scalar("SELECT count(*) FROM sqlite_schema WHERE name = 'half'"));
        Assert.NotNull(await _temporary.Store.FindAsync(TemporaryStore.Id(1), Token));
    }

    [Fact]
    public async Task Open_NewerSchema_IsRefusedAndNamesBothVersions()
    {
        await _temporary.Store.CheckAsync(Token);
        await _temporary.CloseAsync();
        _temporary.Scalar("PRAGMA user_version = 99");

        var error = Assert.Throws<StoreFormatException>(() => _temporary.Store);

        Assert.Contains("schema version 99", error.Message, StringComparison.Ordinal);
        Assert.Contains($"up to {Migration.OfSqlite.Length}", error.Message, StringComparison.Ordinal);
        Assert.Equal(99L, _temporary.Scalar("PRAGMA user_version"));
    }

    [Fact]
    public void Open_DatabaseOfAnotherApplication_IsRefusedUntouched()
    {
        _temporary.Scalar("CREATE TABLE accounts (id INTEGER)");

        var error = Assert.Throws<StoreFormatException>(() => _temporary.Store);

        Assert.Contains("another application", error.Message, StringComparison.Ordinal);
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM sqlite_schema"));
    }

    [Fact]
    public void Open_FileThatIsNoDatabase_IsRefusedUntouched()
    {
        var text = string.Join('\n', Enumerable.Repeat("wavelength;total;diffuse", 100));
        File.WriteAllText(_temporary.File, text);

        Assert.Throws<StoreFormatException>(() => _temporary.Store);
        Assert.Equal(text, File.ReadAllText(_temporary.File));
    }

    [Fact]
    public async Task Open_TwoServersAtOnce_TakeEachStepOnce()
    {
        var stores = await Task.WhenAll(Enumerable.Range(0, 4).Select(_ =>
            Task.Run(() => SqliteStore.Open(_temporary.File, _temporary.Clock), Token)));

        await Task.WhenAll(stores.Select((store, i) => store.Readings.AppendAsync(TemporaryStore.Entry(i), Token)));
        foreach (var store in stores)
        {
            await store.DisposeAsync();
        }

        Assert.Equal(4L, _temporary.Scalar("SELECT count(*) FROM reading"));
    }

    [Fact]
    public async Task Check_StoreFileRemoved_Throws()
    {
        await _temporary.Store.CheckAsync(Token);
        File.Delete(_temporary.File);

        await Assert.ThrowsAsync<StoreUnavailableException>(() => _temporary.Store.CheckAsync(Token));
    }
}
