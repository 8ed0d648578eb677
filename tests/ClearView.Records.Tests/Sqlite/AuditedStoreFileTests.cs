using System.Security.Cryptography;

using ClearView.Records.Model;
using ClearView.Records.Schema;
using ClearView.Records.Sqlite;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Sqlite;

public sealed class AuditedStoreFileTests : IAsyncDisposable
{
    private readonly TemporarySqliteStore _temporary = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public async Task Verify_ClosedStore_HoldsAndLeavesTheFileAsItWas()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        var heads = await _temporary.Opened.Audit.HeadsAsync(Token);
        await _temporary.CloseAsync();
        var before = Digest(_temporary.File);

        await using (var audited = AuditedStoreFile.Open(_temporary.File))
        {
            Assert.Equal(heads, await audited.Audit.HeadsAsync(Token));
            var report = await audited.Audit.VerifyAsync(heads, progress: null, Token);
            Assert.Null(report.Break);
            Assert.Equal((1L, 1L), (report.Links, report.Readings));
        }

        Assert.Equal(before, Digest(_temporary.File));
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(2), Token);
    }

    [Fact]
    public async Task Verify_StoreThatIsWritten_SeesWhatWasCommitted()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        await using var audited = AuditedStoreFile.Open(_temporary.File);

        await _temporary.Store.AppendAsync(TemporaryStore.Entry(2), Token);

        Assert.Equal(2, (await audited.Audit.VerifyAsync([], progress: null, Token)).Readings);
    }

    [Fact]
    public async Task Verify_StoreOfAServerThatWasKilled_ReadsItsLogAndLeavesBothAsTheyWere()
    {
        await _temporary.Store.AppendAsync(TemporaryStore.Entry(1), Token);
        var killed = _temporary.File + ".killed";
        File.Copy(_temporary.File, killed);
        File.Copy(_temporary.File + "-wal", killed + "-wal");
        var before = (Digest(killed), Digest(killed + "-wal"));

        await using var audited = AuditedStoreFile.Open(killed);
        var report = await audited.Audit.VerifyAsync([], progress: null, Token);

        Assert.Equal((1L, null), (report.Readings, report.Break));
        Assert.Equal(before, (Digest(killed), Digest(killed + "-wal")));
    }

    [Fact]
    public void Open_FileThatIsNotThere_IsRefusedAndNotMade()
    {
        var error = Assert.Throws<StoreFormatException>(() => AuditedStoreFile.Open(_temporary.File));

        Assert.Contains("does not exist", error.Message, StringComparison.Ordinal);
        Assert.False(File.Exists(_temporary.File));
    }

    [Fact]
    public void Open_EmptyFile_IsRefusedAndStaysEmpty()
    {
        File.WriteAllBytes(_temporary.File, []);

        Assert.Contains("not a ClearView store", Assert.Throws<StoreFormatException>(() => AuditedStoreFile.Open(_temporary.File)).Message, StringComparison.Ordinal);
        Assert.Equal(0, new FileInfo(_temporary.File).Length);
    }

    [Fact]
    public async Task Open_OlderSchema_SaysHowToBringItForward()
    {
        await _temporary.ReopenAsync([.. Migration.OfSqlite.Take(4)]);
        await _temporary.CloseAsync();
        var before = Digest(_temporary.File);

        var error = Assert.Throws<StoreFormatException>(() => AuditedStoreFile.Open(_temporary.File));

        Assert.Contains($"schema version 4, of an older ClearView; this version reads version {Migration.OfSqlite.Length}", error.Message, StringComparison.Ordinal);
        Assert.Contains("clearview serve --store", error.Message, StringComparison.Ordinal);
        Assert.Equal(before, Digest(_temporary.File));
        Assert.Equal(4L, _temporary.Scalar("PRAGMA user_version"));
    }

    [Fact]
    public async Task Open_NewerSchema_IsRefused()
    {
        await _temporary.Store.CheckAsync(Token);
        await _temporary.CloseAsync();
        _temporary.Scalar("PRAGMA user_version = 99");

        Assert.Contains("schema version 99", Assert.Throws<StoreFormatException>(() => AuditedStoreFile.Open(_temporary.File)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Open_RecordsThatWaitForTheirLinks_IsRefusedAndGivesThemNone()
    {
        await _temporary.Store.CheckAsync(Token);
        await _temporary.CloseAsync();
        _temporary.Scalar("INSERT INTO adoption VALUES (1)");

        Assert.Contains("wait for their links", Assert.Throws<StoreFormatException>(() => AuditedStoreFile.Open(_temporary.File)).Message, StringComparison.Ordinal);
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM adoption"));
    }

    // Beside a writer the file is open, and so are its readers.
    private static string Digest(string file)
    {
        using var stream = new FileStream(file, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        return Convert.ToHexStringLower(SHA256.HashData(stream));
    }
}
