using System.Diagnostics;

using ClearView.Records.Sqlite;
using ClearView.Records.Tests.Behaviour;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Tests.Sqlite;

/// <summary>The backups of a live store that docs/operating.md describes.</summary>
public sealed class BackupTests : IAsyncDisposable
{
    private readonly TemporarySqliteStore _temporary = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Copy => _temporary.File + ".copy";

    public ValueTask DisposeAsync() => _temporary.DisposeAsync();

    [Fact]
    public async Task Backup_OfALiveStore_IsAWholeStore() =>
        await CheckBackup(() =>
        {
            using var live = _temporary.Connect();
            using var copy = new SqliteConnection($"Data Source={Copy};Pooling=False");
            copy.Open();
            live.BackupDatabase(copy);
            return Task.CompletedTask;
        });

    [Fact]
    public async Task Backup_ByTheCommandOfTheManual_IsAWholeStore()
    {
        Assert.SkipUnless(IsInstalled(), "the sqlite3 command is not installed");
        await CheckBackup(() => RunSqlite(_temporary.File, $".backup '{Copy}'"));
    }

    private static bool IsInstalled()
    {
        var folders = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator);
        return folders.Any(folder => File.Exists(Path.Combine(folder, "sqlite3")));
    }

    private static async Task RunSqlite(params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo("sqlite3", arguments) { RedirectStandardError = true })!;
        var error = await process.StandardError.ReadToEndAsync(Token);
        await process.WaitForExitAsync(Token);
        Assert.True(process.ExitCode == 0, error);
    }

    private async Task CheckBackup(Func<Task> backup)
    {
        const int before = 200;
        var store = _temporary.Store;
        await Task.WhenAll(Enumerable.Range(0, before).Select(number => store.AppendAsync(TemporaryStore.Entry(number), Token)));
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(Token);
        var posting = Task.Run(
            async () =>
            {
                for (var number = before; !stop.IsCancellationRequested; number++)
                {
                    await store.AppendAsync(TemporaryStore.Entry(number), Token);
                }
            },
            Token);

        await backup();
        await stop.CancelAsync();
        await posting;

        await using var copy = SqliteStore.Open(Copy, _temporary.Clock);
        for (var number = 0; number < before; number++)
        {
            AppendBehaviour.AssertSame(TemporaryStore.Entry(number), (await copy.Readings.FindAsync(TemporaryStore.Id(number), Token))!.Entry);
        }

        using var connection = new SqliteConnection($"Data Source={Copy};Pooling=False");
        connection.Open();
        using var check = new SqliteCommand("PRAGMA integrity_check", connection);
        Assert.Equal("ok", check.ExecuteScalar());
    }
}
