using ClearView.Benchmarks.Measuring;

namespace ClearView.Benchmarks.Posting;

/// <summary>
/// Durable posting through one stream to a server on a loopback socket, beside plain prepared inserts of the same rows into a file of
/// the same schema in batches of 256, each flushed (synchronous = FULL). Client and server share the process.
/// </summary>
/// <remarks>Both files, in the temporary folder, grow alike.</remarks>
internal static class PostStreamLoad
{
    /// <summary>Runs rounds and prints readings per second and their ratio.</summary>
    /// <param name="arguments">The number of rounds, or nothing.</param>
    public static async Task RunAsync(IReadOnlyList<string> arguments)
    {
        var rounds = Counts.Read(arguments, least: 1, 15)[0];
        Machine.Print(Machine.Sqlite());
        using var folder = new TemporaryFolder();
        var store = folder.File("readings.db");
        await using var server = await LoopbackServer.StartAsync(store);

        // The first round warms up, and its rows are what the plain inserts repeat.
        await PostRounds.PostAsync(server.Client, PostRounds.Posts());
        using var raw = new RawStore(folder.File("raw.db"), store);
        Task Insert(Guid[] ids)
        {
            raw.InsertAll(ids);
            return Task.CompletedTask;
        }

        await Insert([.. PostRounds.Posts().Select(post => Guid.Parse(post.ReadingId))]);
        await PostRounds.RunAsync(rounds, server.Client, "plain inserts", raw.ValuesPerReading, Insert);
    }
}
