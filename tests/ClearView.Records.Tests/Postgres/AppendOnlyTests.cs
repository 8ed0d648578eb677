using ClearView.Records.Tests.Behaviour;

using Npgsql;

namespace ClearView.Records.Tests.Postgres;

public sealed class AppendOnlyTests(PostgresCluster cluster) : IAsyncDisposable
{
    private readonly TemporaryPostgresStore _temporary = new(cluster);

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Theory]
    [InlineData("UPDATE reading SET line = 'other'", "UPDATE refused")]
    [InlineData("UPDATE reading_2026_03 SET line = 'other'", "UPDATE refused")]
    [InlineData("DELETE FROM reading", "DELETE refused")]
    [InlineData("TRUNCATE reading", "TRUNCATE refused")]
    [InlineData("TRUNCATE reading_2026_03", "TRUNCATE refused")]
    [InlineData("UPDATE reading_id SET line = 'other'", "UPDATE refused")]
    [InlineData("DELETE FROM reading_id", "DELETE refused")]
    [InlineData("TRUNCATE reading_id", "TRUNCATE refused")]
    [InlineData("INSERT INTO reading_id SELECT id, 'other', 0, 99 FROM reading_id", "duplicate key")]
    [InlineData("INSERT INTO reading_id SELECT id, line, 0, 99 FROM reading_id ON CONFLICT (line, id) DO UPDATE SET line = 'other'", "UPDATE refused")]
    [InlineData("UPDATE reading_signal SET signals = ''", "UPDATE refused")]
    [InlineData("DELETE FROM reading_signal", "DELETE refused")]
    [InlineData("TRUNCATE reading_signal", "TRUNCATE refused")]
    [InlineData("UPDATE series_value SET value = 0", "UPDATE refused")]
    [InlineData("DELETE FROM series_value WHERE value > 1", "DELETE refused")]
    [InlineData("TRUNCATE series_value", "TRUNCATE refused")]
    [InlineData("TRUNCATE series_value_2026_03", "TRUNCATE refused")]
    [InlineData("UPDATE label SET text = 'other'", "UPDATE refused")]
    [InlineData("DELETE FROM label", "DELETE refused")]
    [InlineData("TRUNCATE label", "TRUNCATE refused")]
    [InlineData("UPDATE link SET name = 'other'", "UPDATE refused")]
    [InlineData("DELETE FROM link", "DELETE refused")]
    [InlineData("TRUNCATE link", "TRUNCATE refused")]
    [InlineData("TRUNCATE correction", "TRUNCATE refused")]
    [InlineData("TRUNCATE picture", "TRUNCATE refused")]
    [InlineData("UPDATE versioned SET description = 'other'", "UPDATE refused")]
    [InlineData("DELETE FROM versioned", "DELETE refused")]
    [InlineData("TRUNCATE versioned", "TRUNCATE refused")]
    [InlineData("INSERT INTO versioned SELECT kind, name, 3, 0, '', '', '' FROM versioned", "version out of turn refused")]
    public async Task Change_ByAnySqlClient_IsRefused(string sql, string refusal)
    {
        var entry = TemporaryStore.Entry(1);
        var stored = await _temporary.Store.AppendAsync(entry, TestContext.Current.CancellationToken);
        await _temporary.Opened.Recorded.SettleAsync(stored.Reading, new byte[] { 6 });
        await _temporary.Methods.StoreAsync(VersionedBehaviour.Entry("film-25", 1), TestContext.Current.CancellationToken);

        var error = Assert.Throws<PostgresException>(() => _temporary.Scalar(sql));

        Assert.Contains(refusal, error.Message, StringComparison.Ordinal);
        var found = await _temporary.Store.FindAsync(entry.Id, TestContext.Current.CancellationToken);
        AppendBehaviour.AssertSame(entry, found!.Entry);
    }
}
