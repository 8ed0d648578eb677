using ClearView.Records.Postgres;
using ClearView.Records.Retention;
using ClearView.Records.Tests.Behaviour;

namespace ClearView.Records.Tests.Postgres;

/// <summary>The export of a month is on the disk, with its name, before the month leaves the database.</summary>
public sealed class ExportFlushTests(PostgresCluster cluster) : IAsyncDisposable
{
    private readonly TemporaryPostgresStore _temporary = new(cluster);
    private readonly string _folder = Directory.CreateTempSubdirectory("clearview-flush-").FullName;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string ExportFile => Path.Combine(_folder, "readings-2026-02.db");

    public async ValueTask DisposeAsync()
    {
        await _temporary.DisposeAsync();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task Retire_FlushesTheFolder_WhenTheExportHasItsNameAndTheMonthIsStillThere()
    {
        await AppendAsync();
        List<(string Folder, bool HasItsName, object? Readings, object? Retired)> seen = [];

        await RetireAsync(folder => seen.Add((
            folder, File.Exists(ExportFile), _temporary.Scalar("SELECT count(*) FROM reading"), _temporary.Scalar("SELECT count(*) FROM retired_month"))));

        Assert.Equal((_folder, true, 1L, 0L), Assert.Single(seen));
        Assert.Equal(0L, _temporary.Scalar("SELECT count(*) FROM reading"));
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM retired_month"));
    }

    [Fact]
    public async Task Retire_WhereTheFolderCannotBeFlushed_LeavesTheMonthAndNoFile()
    {
        await AppendAsync();

        var refused = await Assert.ThrowsAsync<RetentionException>(() => RetireAsync(_ => throw new IOException("the disk is gone")));

        Assert.Contains("the disk is gone", refused.Message, StringComparison.Ordinal);
        Assert.Contains(ExportFile, refused.Message, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_folder));
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM reading"));
        Assert.Equal(0L, _temporary.Scalar("SELECT count(*) FROM retired_month"));

        // With a folder that can be, the same month is retired.
        await RetireAsync(ExportFlush.Folder);
        Assert.Equal(1L, _temporary.Scalar("SELECT count(*) FROM retired_month"));
    }

    [Fact]
    public void Folder_ThatIsNotThere_CannotBeFlushed()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows keeps its directory in a journal; nothing is flushed.");

        var error = Assert.Throws<IOException>(() => ExportFlush.Folder(Path.Combine(_folder, "none")));

        Assert.Contains("cannot be opened", error.Message, StringComparison.Ordinal);
    }

    private Task AppendAsync() => _temporary.Store.AppendAsync(
        TemporaryStore.Entry(1, entry => entry with { MeasuredAt = TemporaryStore.Noon.AddMonths(-1) }), Token);

    private async Task RetireAsync(Action<string> flushFolder)
    {
        await foreach (var retired in MonthRetirement.RunAsync(
            (PostgresStore)_temporary.Opened, new MonthSpan(2026, 3), _folder, flushFolder, "E. Marsh", _temporary.Clock, Token))
        {
            Assert.Equal("2026-02", retired.Month);
        }
    }
}
