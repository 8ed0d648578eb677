using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Schema;
using ClearView.Records.Tests.Behaviour;

using Npgsql;

namespace ClearView.Records.Tests.Postgres;

public sealed class AuditedDatabaseTests(PostgresCluster cluster) : IAsyncDisposable
{
    private readonly TemporaryPostgresStore _temporary = new(cluster);

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public async Task Verify_StoreThatIsWritten_Holds()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        await using var audited = await AuditedDatabase.OpenAsync(_temporary.ConnectionString, Token);
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(2), Token);

        var report = await audited.Audit.VerifyAsync(await _temporary.Opened.Audit.HeadsAsync(Token), progress: null, Token);

        Assert.Null(report.Break);
        Assert.Equal((2L, 2L), (report.Readings, report.Links));
        Assert.Equal(report.Heads, await audited.Audit.HeadsAsync(Token));
    }

    [Fact]
    public async Task Connections_TakeNoWrite()
    {
        await _temporary.Store.CheckAsync(Token);
        await using var connection = new NpgsqlConnection(PostgresConnectionString.CompleteReadOnly(_temporary.ConnectionString));
        await connection.OpenAsync(Token);
        await using var command = new NpgsqlCommand("INSERT INTO adoption VALUES (1)", connection);

        Assert.Equal(PostgresErrorCodes.ReadOnlySqlTransaction, (await Assert.ThrowsAsync<PostgresException>(() => command.ExecuteNonQueryAsync(Token))).SqlState);
    }

    [Fact]
    public async Task Open_DatabaseWithoutAStore_IsRefusedAndStaysEmpty()
    {
        var error = await Assert.ThrowsAsync<StoreFormatException>(() => AuditedDatabase.OpenAsync(_temporary.ConnectionString, Token));

        Assert.Contains("holds no ClearView store", error.Message, StringComparison.Ordinal);
        Assert.Equal(true, _temporary.Scalar("SELECT to_regnamespace('clearview') IS NULL"));
    }

    [Fact]
    public async Task Open_OlderSchema_SaysHowToBringItForward()
    {
        await using (await PostgresStore.OpenAsync(_temporary.ConnectionString, _temporary.Clock, [.. Migration.OfPostgres.Take(3)], Token))
        {
        }

        var error = await Assert.ThrowsAsync<StoreFormatException>(() => AuditedDatabase.OpenAsync(_temporary.ConnectionString, Token));

        Assert.Contains($"schema version 3, of an older ClearView; this version reads version {Migration.OfPostgres.Length}", error.Message, StringComparison.Ordinal);
        Assert.Contains("clearview serve --store", error.Message, StringComparison.Ordinal);
        Assert.Equal(3L, _temporary.Scalar("SELECT count(*) FROM migration"));
    }

    [Fact]
    public async Task Open_RecordsThatWaitForTheirLinks_IsRefusedAndGivesThemNone()
    {
        await _temporary.Store.CheckAsync(Token);
        await _temporary.CloseAsync();
        _temporary.Scalar("INSERT INTO adoption VALUES (1)");

        var error = await Assert.ThrowsAsync<StoreFormatException>(() => AuditedDatabase.OpenAsync(_temporary.ConnectionString, Token));

        Assert.Contains("wait for their links", error.Message, StringComparison.Ordinal);
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM adoption"));
    }
}
