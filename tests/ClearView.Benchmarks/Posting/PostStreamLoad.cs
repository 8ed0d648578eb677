using System.Diagnostics;
using System.Globalization;
using System.Net;

using ClearView.Client;
using ClearView.Server;
using ClearView.Server.Configuration;
using ClearView.V1;

using Microsoft.Extensions.Logging;

namespace ClearView.Benchmarks.Posting;

/// <summary>
/// Durable posting through one stream to a server on a loopback socket, beside plain prepared inserts of the same rows into a file of
/// the same schema in batches of 256, each flushed (synchronous = FULL). Client and server share the process.
/// </summary>
/// <remarks>
/// Rounds of both take turns, so that whatever else the machine does strikes both alike, and both files, in the temporary folder, grow
/// alike. Only ratios within one run mean anything on another machine.
/// </remarks>
internal sealed class PostStreamLoad : IAsyncDisposable
{
    private const int ReadingsPerRound = 2560;

    private readonly string _folder;
    private readonly ClearViewServer _server;
    private readonly ClearViewClient _client;

    private PostStreamLoad(ClearViewServer server, ClearViewClient client, string folder)
    {
        _server = server;
        _client = client;
        _folder = folder;
    }

    /// <summary>Runs rounds and prints readings per second and their ratio, of each round and in the median.</summary>
    /// <param name="rounds">How many.</param>
    public static async Task RunAsync(int rounds)
    {
        var folder = Directory.CreateTempSubdirectory("clearview-posting-").FullName;
        var store = Path.Combine(folder, "readings.db");
        var server = ClearViewServer.Build(new ServerOptions { Listen = new IPEndPoint(IPAddress.Loopback, 0), Store = store, LogLevel = LogLevel.Warning });
        await server.StartAsync().ConfigureAwait(false);
        await using var load = new PostStreamLoad(server, ClearViewClient.Connect(server.Address), folder);

        // The first round warms up, and its rows are what the plain inserts repeat.
        await load.PostAsync(Posts()).ConfigureAwait(false);
        using var raw = new RawStore(Path.Combine(folder, "raw.db"), store);
        raw.InsertAll(Ids(Posts()));
        Write($"{raw.ValuesPerReading} values per reading; {Posts()[0].CalculateSize()} bytes per post; {ReadingsPerRound} readings per round");
        Write($"{"round",5} {"plain inserts, 1/s",19} {"one stream, 1/s",16} {"ratio",6}");
        List<double> ratios = [];
        for (var round = 1; round <= rounds; round++)
        {
            var posts = Posts();
            var ids = Ids(posts);
            var plain = Stopwatch.StartNew();
            raw.InsertAll(ids);
            plain.Stop();
            var stream = Stopwatch.StartNew();
            await load.PostAsync(posts).ConfigureAwait(false);
            stream.Stop();
            ratios.Add(plain.Elapsed / stream.Elapsed);
            Write($"{round,5} {ReadingsPerRound / plain.Elapsed.TotalSeconds,19:F0} {ReadingsPerRound / stream.Elapsed.TotalSeconds,16:F0} {ratios[^1],6:F2}");
        }

        Write($"median ratio {ratios.Order().ElementAt(ratios.Count / 2):F2}");
    }

    public async ValueTask DisposeAsync()
    {
        await _client.DisposeAsync().ConfigureAwait(false);
        await _server.StopAsync().ConfigureAwait(false);
        await _server.DisposeAsync().ConfigureAwait(false);
        Directory.Delete(_folder, recursive: true);
    }

    private static PostReadingRequest[] Posts() => [.. Enumerable.Range(0, ReadingsPerRound).Select(PostedFilm.Post)];

    private static byte[][] Ids(PostReadingRequest[] posts) => [.. posts.Select(post => Guid.Parse(post.ReadingId).ToByteArray(bigEndian: true))];

    private static void Write(FormattableString line) => Console.WriteLine(line.ToString(CultureInfo.InvariantCulture));

    private async Task PostAsync(PostReadingRequest[] posts)
    {
        var stored = 0;
        await foreach (var answer in _client.PostManyAsync(posts.ToAsyncEnumerable()).ConfigureAwait(false))
        {
            stored += answer.Acknowledgement is { AlreadyStored: false } ? 1 : 0;
        }

        if (stored != posts.Length)
        {
            throw new InvalidOperationException("Not every reading was stored.");
        }
    }
}
