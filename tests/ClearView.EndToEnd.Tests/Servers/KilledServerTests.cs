using ClearView.V1;

using Grpc.Net.Client;

using Microsoft.Data.Sqlite;

namespace ClearView.EndToEnd.Tests.Servers;

/// <summary>An acknowledged reading survives whatever happens to the server.</summary>
public sealed class KilledServerTests : IDisposable
{
    private const int Posters = 4;
    private const int Rounds = 5;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-killed-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Store => Path.Combine(_folder.FullName, "readings.db");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Kill_WhilePosting_LosesNoAcknowledgedReading()
    {
        var random = new Random(2026);
        var posters = Enumerable.Range(0, Posters).Select(number => new Poster(number, seed: number)).ToList();

        for (var round = 0; round < Rounds; round++)
        {
            using var server = await ServerProcess.StartAsync(Store, Token);
            var before = posters.Sum(poster => poster.Acknowledged.Count);
            var posting = await StartPostingAsync(server, posters, minAcknowledged: before + 20);
            await Task.Delay(random.Next(0, 400), Token);
            await server.KillAsync();
            await posting;
        }

        using var last = await ServerProcess.StartAsync(Store, Token);
        using var channel = last.Connect();
        await CheckAcknowledgedAsync(channel, posters);
        await RepeatUnansweredAsync(channel, posters);
        await CheckChainAsync(channel, posters.Sum(poster => poster.Acknowledged.Count + poster.Unanswered.Count));
        Assert.Equal(0, (await last.TerminateAsync()).ExitCode);
        CheckStore(posters);
    }

    [Fact]
    public async Task Terminate_WhilePosting_StopsInOrderAndLosesNothing()
    {
        var posters = Enumerable.Range(0, Posters).Select(number => new Poster(number, seed: 100 + number)).ToList();
        using (var server = await ServerProcess.StartAsync(Store, Token))
        {
            var posting = await StartPostingAsync(server, posters, minAcknowledged: 20);

            var (exitCode, log) = await server.TerminateAsync();
            await posting;

            Assert.Equal(0, exitCode);
            Assert.Contains("Stopped", log, StringComparison.Ordinal);
            Assert.DoesNotContain("fail:", log, StringComparison.Ordinal);
            Assert.DoesNotContain("   at ", log, StringComparison.Ordinal);
        }

        // After an orderly stop the log is folded into the one file.
        Assert.False(File.Exists(Store + "-wal"));
        using var restarted = await ServerProcess.StartAsync(Store, Token);
        using var channel = restarted.Connect();
        await CheckAcknowledgedAsync(channel, posters);
    }

    // Completes once enough is acknowledged; the inner task completes when every poster is cut off.
    private static async Task<Task> StartPostingAsync(ServerProcess server, List<Poster> posters, int minAcknowledged)
    {
        var posting = Task.WhenAll(posters.Select(async poster =>
        {
            using var channel = server.Connect();
            await poster.PostUntilCutOffAsync(channel, Token);
        }));
        while (posters.Sum(poster => poster.Acknowledged.Count) < minAcknowledged)
        {
            Assert.False(posting.IsCompleted, "the posters were cut off before the server was killed");
            await Task.Delay(10, Token);
        }

        return posting;
    }

    private static async Task CheckAcknowledgedAsync(GrpcChannel channel, List<Poster> posters)
    {
        var client = new ReadingService.ReadingServiceClient(channel);
        foreach (var request in posters.SelectMany(poster => poster.Acknowledged))
        {
            var response = await client.GetReadingAsync(new GetReadingRequest { ReadingId = request.ReadingId }, cancellationToken: Token);
            Assert.Equal(request.Measurement, response.Reading.Measurement);
            Assert.Equal(request.Method, response.Reading.Method);
        }
    }

    private static async Task RepeatUnansweredAsync(GrpcChannel channel, List<Poster> posters)
    {
        var client = new ReadingService.ReadingServiceClient(channel);
        foreach (var request in posters.SelectMany(poster => poster.Unanswered))
        {
            var response = await client.PostReadingAsync(request, cancellationToken: Token);
            Assert.Equal(request.Measurement, response.Reading.Measurement);
        }
    }

    private static async Task CheckChainAsync(GrpcChannel channel, int posted)
    {
        using var call = new AuditService.AuditServiceClient(channel).VerifyChain(new VerifyChainRequest(), cancellationToken: Token);
        VerificationSummary? summary = null;
        while (await call.ResponseStream.MoveNext(Token))
        {
            summary = call.ResponseStream.Current.Summary;
        }

        Assert.NotNull(summary);
        Assert.Null(summary.FirstBreak);
        Assert.Equal((posted, posted), (summary.ReadingCount, summary.LinkCount));
    }

    private void CheckStore(List<Poster> posters)
    {
        var posted = posters.Sum(poster => poster.Acknowledged.Count + poster.Unanswered.Count);
        using var connection = new SqliteConnection($"Data Source={Store};Mode=ReadOnly;Pooling=False");
        connection.Open();
        Assert.Equal("ok", Scalar(connection, "PRAGMA integrity_check"));
        Assert.Equal((long)posted, Scalar(connection, "SELECT count(*) FROM reading"));
        Assert.Equal((long)posted, Scalar(connection, "SELECT count(DISTINCT id) FROM reading"));
        Assert.Equal(0L, Scalar(connection, "SELECT count(*) FROM reading WHERE sequence NOT IN (SELECT sequence FROM series_value)"));
    }

    private static object? Scalar(SqliteConnection connection, string sql)
    {
#pragma warning disable CA2100 // Statements are constants of the tests.
        using var command = new SqliteCommand(sql, connection);
#pragma warning restore CA2100
        return command.ExecuteScalar();
    }
}
