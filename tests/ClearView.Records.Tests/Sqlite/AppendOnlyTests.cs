using ClearView.Records.Tests.Behaviour;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Tests.Sqlite;

public sealed class AppendOnlyTests : IAsyncDisposable
{
    private readonly TemporarySqliteStore _temporary = new();

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Theory]
    [InlineData("UPDATE reading SET line = 'other'", "UPDATE refused")]
    [InlineData("UPDATE OR IGNORE reading SET measurement = x'00'", "UPDATE refused")]
    [InlineData("DELETE FROM reading", "DELETE refused")]
    [InlineData("INSERT OR REPLACE INTO reading SELECT * FROM reading", "REPLACE refused")]
    [InlineData(
        "INSERT OR REPLACE INTO reading SELECT sequence + 50, id, 0, 0, '', '', '', '', '', '', x'', x'', x'', NULL, '', NULL, NULL, NULL, NULL, NULL FROM reading",
        "REPLACE refused")]
    [InlineData("UPDATE series_value SET value = 0", "UPDATE refused")]
    [InlineData("DELETE FROM series_value WHERE value > 1", "DELETE refused")]
    [InlineData("INSERT OR REPLACE INTO series_value SELECT line, measurand, measured_at, sequence, 0, product, lot, roll, instrument, across_mm, along_m FROM series_value", "REPLACE refused")]
    [InlineData("UPDATE reading_signal SET signals = x'00'", "UPDATE refused")]
    [InlineData("DELETE FROM reading_signal", "DELETE refused")]
    [InlineData("INSERT OR REPLACE INTO reading_signal SELECT line, sequence, x'00' FROM reading_signal", "REPLACE refused")]
    [InlineData("UPDATE link SET name = 'other'", "UPDATE refused")]
    [InlineData("DELETE FROM link", "DELETE refused")]
    [InlineData("INSERT OR REPLACE INTO link SELECT chain, position + 9, kind, name, number, record_hash, hash, covers FROM link", "REPLACE refused")]
    [InlineData("UPDATE label SET text = 'other'", "UPDATE refused")]
    [InlineData("DELETE FROM label", "DELETE refused")]
    [InlineData("INSERT OR REPLACE INTO label SELECT code, 'other' FROM label", "REPLACE refused")]
    public async Task Change_ByAnySqlClient_IsRefused(string sql, string refusal)
    {
        var entry = TemporaryStore.Entry(1);
        var stored = await _temporary.Store.AppendAsync(entry, TestContext.Current.CancellationToken);
        await _temporary.Opened.Recorded.SettleAsync(stored.Reading, new byte[] { 6 });

        var error = Assert.Throws<SqliteException>(() => _temporary.Scalar(sql));

        Assert.Contains(refusal, error.Message, StringComparison.Ordinal);
        var found = await _temporary.Store.FindAsync(entry.Id, TestContext.Current.CancellationToken);
        AppendBehaviour.AssertSame(entry, found!.Entry);
    }

    [Theory]
    [InlineData("UPDATE versioned SET description = 'other'", "UPDATE refused")]
    [InlineData("UPDATE OR IGNORE versioned SET version = 2", "UPDATE refused")]
    [InlineData("DELETE FROM versioned", "DELETE refused")]
    [InlineData("INSERT OR REPLACE INTO versioned SELECT kind, name, version, 0, '', '', x'' FROM versioned", "refused")]
    [InlineData("INSERT INTO versioned SELECT kind, name, 3, 0, '', '', x'' FROM versioned", "version out of turn refused")]
    [InlineData("INSERT INTO versioned SELECT kind, name, 0, 0, '', '', x'' FROM versioned", "version out of turn refused")]
    public async Task ChangeOfDocuments_ByAnySqlClient_IsRefused(string sql, string refusal)
    {
        var stored = await _temporary.Methods.StoreAsync(VersionedBehaviour.Entry("film-25", 1), TestContext.Current.CancellationToken);

        var error = Assert.Throws<SqliteException>(() => _temporary.Scalar(sql));

        Assert.Contains(refusal, error.Message, StringComparison.Ordinal);
        VersionedBehaviour.AssertSame(stored.Version, await _temporary.Methods.FindAsync("film-25", null, TestContext.Current.CancellationToken));
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM versioned"));
    }
}
