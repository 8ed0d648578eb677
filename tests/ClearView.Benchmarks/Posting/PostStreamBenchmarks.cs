using System.Net;

using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Engines;

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
/// <remarks>Both files lie in the temporary folder and grow alike. Ratios hold within one run only; op/s is readings per second.</remarks>
[SimpleJob(RunStrategy.Monitoring, warmupCount: 3, iterationCount: 12)]
#pragma warning disable CA1001 // The framework of the benchmarks calls CleanUp.
public class PostStreamBenchmarks
#pragma warning restore CA1001
{
    private const int Readings = 2560;

    private string _folder = "";
    private ClearViewServer _server = null!;
    private ClearViewClient _client = null!;
    private RawStore _raw = null!;
    private PostReadingRequest[] _posts = [];
    private byte[][] _ids = [];

    /// <summary>Starts the server, posts once, and learns the rows.</summary>
    [GlobalSetup]
    public void Prepare()
    {
        _folder = Directory.CreateTempSubdirectory("clearview-posting-").FullName;
        var store = Path.Combine(_folder, "readings.db");
        _server = ClearViewServer.Build(new ServerOptions { Listen = new IPEndPoint(IPAddress.Loopback, 0), Store = store, LogLevel = LogLevel.Warning });
        _server.StartAsync().GetAwaiter().GetResult();
        _client = ClearViewClient.Connect(_server.Address);
        MakePosts();
        OneStream().GetAwaiter().GetResult();
        _raw = new RawStore(Path.Combine(_folder, "raw.db"), store);
        Console.WriteLine($"// {_raw.ValuesPerReading} values per reading, {_posts[0].CalculateSize()} bytes per post");
    }

    /// <summary>Makes what is posted next, which takes no part in the measurement.</summary>
    [IterationSetup]
    public void MakePosts()
    {
        _posts = [.. Enumerable.Range(0, Readings).Select(PostedFilm.Post)];
        _ids = [.. _posts.Select(post => Guid.Parse(post.ReadingId).ToByteArray(bigEndian: true))];
    }

    /// <summary>Stops the server and removes the files.</summary>
    [GlobalCleanup]
    public void CleanUp()
    {
        _raw.Dispose();
        _client.DisposeAsync().AsTask().GetAwaiter().GetResult();
        _server.StopAsync().GetAwaiter().GetResult();
        _server.DisposeAsync().AsTask().GetAwaiter().GetResult();
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>Plain inserts.</summary>
    [Benchmark(Baseline = true, OperationsPerInvoke = Readings, Description = "batched inserts of the same rows")]
    public void RawInserts() => _raw.InsertAll(_ids);

    /// <summary>The whole way: client, wire, evaluation, store, acknowledgement.</summary>
    [Benchmark(OperationsPerInvoke = Readings, Description = "durable posting over one stream")]
    public async Task OneStream()
    {
        var stored = 0;
        await foreach (var answer in _client.PostManyAsync(_posts.ToAsyncEnumerable()).ConfigureAwait(false))
        {
            stored += answer.Acknowledgement is { AlreadyStored: false } ? 1 : 0;
        }

        if (stored != Readings)
        {
            throw new InvalidOperationException("Not every reading was stored.");
        }
    }
}
