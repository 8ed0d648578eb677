using ClearView.Client.Files;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.V1;

using Google.Protobuf;

namespace ClearView.EndToEnd.Tests.Outboxes;

/// <summary>The line's poster as the line runs it: readings from a pipe or a folder, servers and posters that are killed.</summary>
public sealed class PosterTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-poster-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Store => Path.Combine(_folder.FullName, "readings.db");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Stdin_ServerAndPosterAreKilled_EveryAcceptedReadingIsStoredOnceInItsOrder()
    {
        var posts = LineReadings.Make("line 3", 400);
        var server = await ServerProcess.StartAsync(Store, Token);
        try
        {
            using (var poster = Start("--stdin"))
            {
                await WriteAsync(poster, posts[..200]);
                await poster.WaitForAsync(one => one.StoredCount() >= 50, Token);
                await server.KillAsync();
                await WriteAsync(poster, posts[200..300]);
                await poster.WaitForAsync(one => one.Events.Count(what => (string?)what["event"] == "accepted") == 300, Token);
                await poster.KillAsync();
            }

            server.Dispose();
            server = await ServerProcess.StartAsync(Store, Token, server.Address.Port);
            using var again = Start("--stdin");
            await WriteAsync(again, posts[300..]);
            again.Input.Close();
            Assert.Equal(0, await again.EndAsync());
            Assert.Equal(0, (await server.TerminateAsync()).ExitCode);
        }
        finally
        {
            server.Dispose();
        }

        LineReadings.AssertStored(Store, posts);

        PosterProcess Start(params string[] arguments) => PosterProcess.Start(
            _folder.FullName, [.. arguments, "--outbox", "outbox", "--least-free", "0", "--server", server.Address.Authority]);
    }

    [Fact]
    public async Task Stdin_LimitsAndFaultyLine_AreTold()
    {
        using var server = await ServerProcess.StartAsync(Store, Token);
        using var poster = PosterProcess.Start(
            _folder.FullName, "--stdin", "--outbox", "outbox", "--least-free", "0", "--limit", "haze<=0.001", "--server", server.Address.Authority);
        await WriteAsync(poster, LineReadings.Make("line 3", 1));
        await poster.Input.WriteLineAsync("{ \"readingId\": 7 }");
        poster.Input.Close();

        Assert.Equal(2, await poster.EndAsync());
        var stored = Assert.Single(poster.Events, one => (string?)one["event"] == "stored");
        Assert.Equal("FAIL", (string?)stored["result"]);
        Assert.NotNull(stored["signals"]);
    }

    [Fact]
    public async Task Retry_MethodStoredSince_StoresTheRefusedReading()
    {
        using var server = await ServerProcess.StartAsync(Store, Token);
        var post = Assert.Single(LineReadings.Make("line 3", 1));
        var method = post.Method;
        post.MethodName = new MethodName { Name = "film-a" };
        using (var poster = PosterProcess.Start(_folder.FullName, "--stdin", "--outbox", "outbox", "--least-free", "0", "--server", server.Address.Authority))
        {
            await WriteAsync(poster, [post]);
            poster.Input.Close();
            Assert.Equal(2, await poster.EndAsync());
            Assert.Contains("film-a", (string?)Assert.Single(poster.Events, one => (string?)one["event"] == "refused")["message"], StringComparison.Ordinal);
        }

        using (var channel = server.Connect())
        {
            await new CatalogueService.CatalogueServiceClient(channel).StoreMethodAsync(
                new StoreMethodRequest { Name = "film-a", Description = "film", Method = method, StoredBy = "M. Arden" }, cancellationToken: Token);
        }

        using var retry = PosterProcess.StartCommand(_folder.FullName, "outbox", "retry", "--json", "--outbox", "outbox", "--server", server.Address.Authority);
        Assert.Equal(0, await retry.EndAsync());
        Assert.Equal(post.ReadingId, (string?)Assert.Single(retry.Events, one => (string?)one["event"] == "stored")["readingId"]);
        Assert.Equal(0, (await server.TerminateAsync()).ExitCode);
        LineReadings.AssertStored(Store, [post]);
    }

    [Fact]
    public async Task Follow_WithDone_MovesEachFileOnceItsReadingsAreInTheOutboxAndTakesItOnce()
    {
        using var server = await ServerProcess.StartAsync(Store, Token);
        var scans = _folder.CreateSubdirectory("scans");
        using var poster = PosterProcess.Start(
            _folder.FullName, "--follow", "scans", "--done", "done", "--settle", "0.1", "--method", "astm", "--outbox", "outbox", "--least-free", "0",
            "--server", server.Address.Authority);
        File.Copy(Sample, Path.Combine(scans.FullName, "one.csv"));
        var specimens = ScanFileReader.Read(Sample, ScanFileOptions.None).Count;
        await poster.WaitForAsync(one => one.StoredCount() == specimens && File.Exists(Path.Combine(_folder.FullName, "done", "one.csv")), Token);

        // The same file again, as after a stop before it was moved: it is moved and not taken.
        File.Copy(Sample, Path.Combine(scans.FullName, "one.csv"));
        await poster.WaitForAsync(_ => File.Exists(Path.Combine(_folder.FullName, "done", "one-2.csv")), Token);

        // Written anew with the same content: taken, but no reading is stored twice.
        var anew = Path.Combine(_folder.FullName, "anew.csv");
        File.Copy(Sample, anew);
        File.SetLastWriteTimeUtc(anew, DateTime.UtcNow);
        File.Move(anew, Path.Combine(scans.FullName, "one.csv"));
        await poster.WaitForAsync(one => one.StoredCount() == 2 * specimens && File.Exists(Path.Combine(_folder.FullName, "done", "one-3.csv")), Token);
        Assert.Equal(specimens, poster.Events.Count(one => (string?)one["event"] == "there"));
        await poster.KillAsync();
    }

    private static string Sample => Path.Combine(AppContext.BaseDirectory, "Samples", "hazemeter.csv");

    private static async Task WriteAsync(PosterProcess poster, IEnumerable<PostReadingRequest> posts)
    {
        foreach (var post in posts)
        {
            await poster.Input.WriteLineAsync(JsonFormatter.Default.Format(post));
        }

        await poster.Input.FlushAsync(Token);
    }
}
