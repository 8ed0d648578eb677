using System.Diagnostics;

using ClearView.Benchmarks.Measuring;
using ClearView.Benchmarks.Posting;
using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Sqlite;
using ClearView.Records.Tests.Postgres;

namespace ClearView.Benchmarks.Queries;

/// <summary>How long queries take through a server on a loopback socket, as a store grows: the same questions to stores of several sizes.</summary>
internal static class QueryLoad
{
    /// <summary>Fills stores, asks them, and prints the times.</summary>
    /// <param name="arguments">"postgres" or nothing, then sizes of stores, or nothing.</param>
    public static async Task RunAsync(IReadOnlyList<string> arguments)
    {
        var isPostgres = arguments is ["postgres", ..];
        var sizes = Counts.Read(arguments.Skip(isPostgres ? 1 : 0), least: 10_000, 10_000, 1_000_000, 10_000_000).Order().ToArray();
        Machine.Print(isPostgres ? "PostgreSQL, a cluster of the program's own" : Machine.Sqlite());
        Console.WriteLine(FormattableString.Invariant($"hazemeter readings of {StoreFill.Lines} lines over a year; lots of {StoreFill.LotSize}"));
        List<List<(string Name, double Milliseconds)>> columns = [];
        foreach (var size in sizes)
        {
            columns.Add(isPostgres ? await OfPostgresAsync(size) : await OfSqliteAsync(size));
        }

        Console.WriteLine();
        var table = new AlignedTable(
            28, ["median, ms", .. sizes.Select(size => Figures.Text(size)), .. sizes.Skip(1).Select(size => $"{Figures.Text(size)} : {Figures.Text(sizes[0])}")]);
        for (var row = 0; row < columns[0].Count; row++)
        {
            var times = columns.Select(column => column[row].Milliseconds).ToArray();
            table.Row(
                [columns[0][row].Name, .. times.Select(time => Figures.Text(time, 2)), .. times.Skip(1).Select(time => Figures.Text(time / times[0], 2))]);
        }
    }

    private static async Task<List<(string Name, double Milliseconds)>> OfSqliteAsync(int size)
    {
        using var folder = new TemporaryFolder();
        Machine.CheckRoom(folder.Path, size * StoreFill.MostBytesPerReading);
        var path = folder.File("readings.db");
        var fill = new StoreFill(size);
        await using (var store = SqliteStore.Open(path, TimeProvider.System))
        {
            await FillAsync(fill, store, size);
        }

        Console.WriteLine(FormattableString.Invariant($"{new FileInfo(path).Length / (double)size:F0} bytes per reading"));
        return await MeasureAsync(path, fill, size);
    }

    private static async Task<List<(string Name, double Milliseconds)>> OfPostgresAsync(int size)
    {
        Machine.CheckRoom(Path.GetTempPath(), size * StoreFill.MostBytesPerReading);
        using var cluster = new PostgresCluster();
        var address = "postgres:" + cluster.CreateDatabase();
        var fill = new StoreFill(size);
        await using (var store = await PostgresStore.OpenAsync(PostgresConnectionString.Parse(address), TimeProvider.System))
        {
            await FillAsync(fill, store, size);
        }

        return await MeasureAsync(address, fill, size);
    }

    private static async Task FillAsync(StoreFill fill, IStore store, int size)
    {
        var start = Stopwatch.GetTimestamp();
        await fill.RunAsync(store.Readings);
        var seconds = Stopwatch.GetElapsedTime(start).TotalSeconds;
        Console.WriteLine($"filled with {Figures.Text(size)} readings in {Figures.Text(seconds)} s, {Figures.Text(size / seconds)} 1/s");
    }

    private static async Task<List<(string Name, double Milliseconds)>> MeasureAsync(string store, StoreFill fill, int size)
    {
        await using var server = await LoopbackServer.StartAsync(store);
        return await new QueryTimes(server.Channel, fill, size).MeasureAsync();
    }
}
