using ClearView.Benchmarks.Evaluating;
using ClearView.Benchmarks.Memory;
using ClearView.Benchmarks.Posting;
using ClearView.Benchmarks.Queries;

namespace ClearView.Benchmarks.Measuring;

/// <summary>Everything that the load program measures.</summary>
internal static class LoadModes
{
    private static readonly LoadMode[] All =
    [
        new("post-stream", "[rounds]", "durable posting through one stream beside plain inserts, SQLite", PostStreamLoad.RunAsync),
        new("post-stream-postgres", "[rounds]", "durable posting through one stream beside binary COPY, PostgreSQL", PostStreamPostgresLoad.RunAsync),
        new("post-latency", "[calls]", "one durable post beside an echo call and a plain flushed insert, SQLite", PostLatencyLoad.RunAsync),
        new("evaluate-stream", "[rounds]", "evaluation without storing beside an echo of the same messages", EvaluateStreamLoad.RunAsync),
        new("memory", "[readings]", "resident memory of a server process while readings stream in, SQLite", MemoryLoad.RunAsync),
        new("queries", "[postgres] [readings ...]", "times of queries as the store grows", QueryLoad.RunAsync),
    ];

    /// <summary>Runs what the arguments name, or tells what there is.</summary>
    /// <param name="args">The arguments.</param>
    /// <returns>The exit code; <see langword="null"/> where the arguments are not for the load program.</returns>
    public static async Task<int?> RunAsync(string[] args)
    {
        if (args is [] || (args[0].StartsWith('-') && args is not (["--help"] or ["-h"])))
        {
            return null;
        }

        if (All.FirstOrDefault(mode => mode.Name == args[0]) is not { } chosen)
        {
            PrintAll();
            return args[0].StartsWith('-') ? 0 : 2;
        }

        try
        {
            await chosen.RunAsync(args[1..]);
            return 0;
        }
        catch (LoadException refusal)
        {
            await Console.Error.WriteLineAsync(refusal.Message);
            return 2;
        }
    }

    private static void PrintAll()
    {
        Console.WriteLine("Loads, each printed with the ratio to a plain way on the same machine in the same run:");
        foreach (var mode in All)
        {
            Console.WriteLine($"  {mode.Name + " " + mode.Arguments,-38}{mode.Description}");
        }

        Console.WriteLine("Options of BenchmarkDotNet, for example --filter '*Year*' or --list flat, run the other benchmarks.");
    }
}
