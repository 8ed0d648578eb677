using System.Diagnostics;
using System.Globalization;

using ClearView.Benchmarks.Measuring;
using ClearView.Benchmarks.Posting;
using ClearView.Client;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.V1;

namespace ClearView.Benchmarks.Memory;

/// <summary>Resident memory of a server in a process of its own while readings stream into its embedded store.</summary>
internal static class MemoryLoad
{
    private const int Samples = 20;

    /// <summary>Streams readings, and prints the server's memory as they come.</summary>
    /// <param name="arguments">The number of readings, or nothing.</param>
    public static async Task RunAsync(IReadOnlyList<string> arguments)
    {
        var readings = Counts.Read(arguments, least: 1000, 1_000_000)[0];
        Machine.Print(Machine.Sqlite());
        using var folder = new TemporaryFolder();
        Machine.CheckRoom(folder.Path, readings * StoreFill.MostBytesPerReading);
        using var server = await ServerProcess.StartAsync(
            new ServerSetUp(folder.File("readings.db")) { Flags = ["--log-level", "Warning"] }, CancellationToken.None);
        await using var client = ClearViewClient.Connect(server.Address);
        List<double> residents = [];
        var table = new AlignedTable(12, "readings", "resident, MB", "readings/s", "store, GB");
        Sample(0, 0);
        residents.Clear();

        var stored = 0;
        var since = Stopwatch.GetTimestamp();
        var step = readings / Samples;
        await foreach (var answer in client.PostManyAsync(Posts(readings)))
        {
            if (answer.Acknowledgement is not { AlreadyStored: false })
            {
                throw new InvalidOperationException($"A reading was not stored: {answer}");
            }

            if (++stored % step == 0)
            {
                Sample(stored, step / Stopwatch.GetElapsedTime(since).TotalSeconds);
                since = Stopwatch.GetTimestamp();
            }
        }

        var half = residents.Count / 2;
        var (first, second) = (residents.Take(half).Max(), residents.Skip(half).Max());
        Console.WriteLine(FormattableString.Invariant(
            $"largest of the first half {first:F0} MB, of the second {second:F0} MB, ratio {second / first:F2}; largest ever {StatusMegabytes(server.Id, "VmHWM:"):F0} MB"));

        void Sample(int count, double rate)
        {
            residents.Add(StatusMegabytes(server.Id, "VmRSS:"));
            var bytes = new DirectoryInfo(folder.Path).EnumerateFiles().Sum(file => file.Length);
            table.Row(Figures.Text(count), Figures.Text(residents[^1]), Figures.Text(rate), Figures.Text(bytes / 1e9, 3));
        }
    }

    // Made as they are sent, so that the sender holds none of them.
    private static async IAsyncEnumerable<PostReadingRequest> Posts(int count)
    {
        var start = DateTimeOffset.UtcNow.AddYears(-1);
        for (var i = 0; i < count; i++)
        {
            yield return PostedHazemeter.Post(i, start.AddSeconds(i));
        }

        await Task.CompletedTask;
    }

    private static double StatusMegabytes(int process, string field)
    {
        var line = File.ReadLines($"/proc/{process.ToString(CultureInfo.InvariantCulture)}/status").Single(line => line.StartsWith(field, StringComparison.Ordinal));
        var kibibytes = line[field.Length..].Replace("kB", "", StringComparison.Ordinal).Trim();
        return double.Parse(kibibytes, CultureInfo.InvariantCulture) * 1024 / 1e6;
    }
}
