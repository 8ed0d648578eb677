using ClearView.Benchmarks.Measuring;
using ClearView.Records.Exchange;
using ClearView.Records.Postgres;
using ClearView.Records.Tests.Postgres;

namespace ClearView.Benchmarks.Posting;

/// <summary>
/// Durable posting through one stream to a server on PostgreSQL, beside plain binary COPY of the same rows into a database of the same
/// schema in batches of 256, each committed (synchronous_commit = on). Client and server share the process; both databases share a
/// cluster of the program's own.
/// </summary>
internal static class PostStreamPostgresLoad
{
    /// <summary>Runs rounds and prints readings per second and their ratio.</summary>
    /// <param name="arguments">The number of rounds, or nothing.</param>
    public static async Task RunAsync(IReadOnlyList<string> arguments)
    {
        var rounds = Counts.Read(arguments, least: 1, 15)[0];
        using var cluster = new PostgresCluster();
        var posted = cluster.CreateDatabase();
        await using var server = await LoopbackServer.StartAsync("postgres:" + posted);

        // The first round warms up, and its rows are what COPY repeats.
        await PostRounds.PostAsync(server.Client, PostRounds.Posts());
        await using var raw = await RawCopy.OpenAsync(await CopyAsync(posted, cluster.CreateDatabase()));
        Machine.Print(await raw.EngineAsync());
        await raw.CopyAllAsync([.. PostRounds.Posts().Select(post => Guid.Parse(post.ReadingId))]);
        await PostRounds.RunAsync(rounds, server.Client, "binary COPY", raw.ValuesPerReading, raw.CopyAllAsync);
    }

    private static async Task<string> CopyAsync(string from, string to)
    {
        await using var source = await PostgresStore.OpenAsync(PostgresConnectionString.Parse("postgres:" + from), TimeProvider.System);
        await using var target = await PostgresStore.OpenAsync(PostgresConnectionString.Parse("postgres:" + to), TimeProvider.System);
        await StoreCopy.RunAsync(source, target, CancellationToken.None);
        return to;
    }
}
