using ClearView.Client;
using ClearView.EndToEnd.Tests.Lines;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.Records.Postgres;
using ClearView.Records.Tests.Postgres;
using ClearView.V1;

using Npgsql;

namespace ClearView.EndToEnd.Tests.Restores;

/// <summary>Backup, restore and return to a moment with the commands of docs/operating.md, while lines post.</summary>
public sealed class PostgresRestoreTests : IDisposable
{
    private const string Database = "line3";

    private readonly PostgresCluster _cluster = new();
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-restore-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Archive => Path.Combine(_cluster.Folder, "archive");

    public void Dispose()
    {
        _cluster.Dispose();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task Dump_WhileLinesPost_RestoresWhatWasAcknowledgedBefore()
    {
        _cluster.RunClient("createdb", "--encoding=UTF8", "--template=template0", Database);
        var dump = Path.Combine(_folder.FullName, "line3.dump");
        List<PostReadingRequest> before;
        List<PostReadingRequest> after;
        using (var server = await StartAsync(_cluster))
        {
            await using var posting = new Posting(ServerAddresses.Of(server.Address), lines: 2, Token);
            await posting.WaitForAsync(20);
            before = AcknowledgedSoFar(posting);
            _cluster.RunClient("pg_dump", "--format=custom", $"--file={dump}", Database);
            await posting.WaitForAsync(5);
            await posting.StopAsync();
            after = AcknowledgedSoFar(posting);
        }

        _cluster.RunClient("createdb", "--encoding=UTF8", "--template=template0", "line3_restored");
        _cluster.RunClient("pg_restore", "--dbname=line3_restored", "--exit-on-error", dump);

        using var restored = await StartAsync(_cluster, "line3_restored");
        await using var client = ClearViewClient.Connect(restored.Address);
        List<string> stored = [];
        await foreach (var reading in client.ListAsync(new ListReadingsRequest { PageSize = 1000 }, Token))
        {
            stored.Add(reading.ReadingId);
        }

        Assert.Subset(stored.ToHashSet(), before.Select(post => post.ReadingId).ToHashSet());
        Assert.Subset(after.Select(post => post.ReadingId).ToHashSet(), stored.ToHashSet());
        var verified = await client.VerifyChainAsync([], progress: null, Token);
        Assert.Null(verified.FirstBreak);
        Assert.Equal(stored.Count, verified.ReadingCount);

        // What the restored store lacks is sent again, and what it holds is known.
        foreach (var post in after)
        {
            await client.PostAsync(post, Token);
        }

        await Inventory.CheckAsync(restored.Address, after, Token);
    }

    [Fact]
    public async Task Recovery_ToAMoment_HoldsExactlyWhatWasAcknowledgedByThen()
    {
        ArchiveTheLog();
        _cluster.RunClient("createdb", "--encoding=UTF8", "--template=template0", Database);
        var baseBackup = Path.Combine(_folder.FullName, "base");
        List<PostReadingRequest> byThen;
        List<PostReadingRequest> all;
        string moment;
        using (var server = await StartAsync(_cluster))
        {
            await using (var posting = new Posting(ServerAddresses.Of(server.Address), lines: 2, Token))
            {
                await posting.WaitForAsync(10);
                _cluster.RunClient("pg_basebackup", $"--pgdata={baseBackup}", "--checkpoint=fast");
                await posting.WaitForAsync(10);
                await posting.StopAsync();
                byThen = AcknowledgedSoFar(posting);
            }

            moment = Ask("SELECT to_char(clock_timestamp() AT TIME ZONE 'UTC', 'YYYY-MM-DD HH24:MI:SS.US+00')");
            await using var client = ClearViewClient.Connect(server.Address);
            var later = new ReadingMaker("line 9", seed: 9).Next(20);
            foreach (var post in later)
            {
                await client.PostAsync(post, Token);
            }

            all = [.. byThen, .. later];
        }

        await WaitUntilArchivedAsync();
        _cluster.Kill();
        try
        {
            await CheckRecoveryAsync(baseBackup, $"recovery_target_time = '{moment}'\nrecovery_target_action = 'promote'\n", byThen);
            await CheckRecoveryAsync(baseBackup, "", all);
        }
        finally
        {
            _cluster.Start();
        }
    }

    private static Task<ServerProcess> StartAsync(PostgresCluster cluster, string database = Database) =>
        ServerProcess.StartAsync(new ServerSetUp(PostgresConnectionString.Describe(cluster.ConnectionString(database))), Token);

    private static List<PostReadingRequest> AcknowledgedSoFar(Posting posting) =>
        [.. posting.Lines.SelectMany(line => Enumerable.Range(0, line.AcknowledgedCount).Select(number => line.Acknowledged[number]))];

    private void ArchiveTheLog()
    {
        Tell("ALTER SYSTEM SET archive_mode = on");
        Tell($"ALTER SYSTEM SET archive_command = 'mkdir -p {Archive} && cp %p {Archive}/%f'");
        _cluster.Stop();
        _cluster.Start();
    }

    // The log is archived in files of 16 MB; a begun one only where it is told to end.
    private async Task WaitUntilArchivedAsync()
    {
        var last = Ask("SELECT pg_walfile_name(pg_switch_wal())");
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(Token);
        patience.CancelAfter(TimeSpan.FromSeconds(60));
        while (string.CompareOrdinal(Ask("SELECT coalesce(last_archived_wal, '') FROM pg_stat_archiver"), last) < 0)
        {
            await Task.Delay(50, patience.Token);
        }
    }

    private async Task CheckRecoveryAsync(string baseBackup, string target, List<PostReadingRequest> expected)
    {
        using var recovered = PostgresCluster.Recover(
            baseBackup, $"archive_mode = off\nrestore_command = 'cp {Archive}/%f %p'\n{target}");
        using var patience = CancellationTokenSource.CreateLinkedTokenSource(Token);
        patience.CancelAfter(TimeSpan.FromSeconds(60));
        while (Ask(recovered, "SELECT pg_is_in_recovery()::text") != "false")
        {
            await Task.Delay(50, patience.Token);
        }

        using var server = await StartAsync(recovered);
        await Inventory.CheckAsync(server.Address, expected, Token);
    }

    private void Tell(string sql)
    {
        using var connection = new NpgsqlConnection(_cluster.ConnectionString("postgres") + ";Pooling=false");
        connection.Open();
#pragma warning disable CA2100 // The statements are of this class.
        using var command = new NpgsqlCommand(sql, connection);
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }

    private string Ask(string sql) => Ask(_cluster, sql);

    private static string Ask(PostgresCluster cluster, string sql)
    {
        using var connection = new NpgsqlConnection(cluster.ConnectionString("postgres") + ";Pooling=false");
        connection.Open();
#pragma warning disable CA2100 // The statements are of this class.
        using var command = new NpgsqlCommand(sql, connection);
#pragma warning restore CA2100
        return (string)command.ExecuteScalar()!;
    }
}
