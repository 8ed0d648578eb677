using System.Collections.Immutable;

using ClearView.Client;
using ClearView.EndToEnd.Tests.Lines;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.V1;

namespace ClearView.EndToEnd.Tests.Faults;

/// <summary>The clock of the server's machine is put back while it runs (Debian's package "faketime" puts it back for one process).</summary>
public sealed class ClockBackwardsTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-clock-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string ClockFile => Path.Combine(_folder.FullName, "clock");

    private ServerSetUp SetUp => new(Path.Combine(_folder.FullName, "readings.db"))
    {
        Environment = ImmutableDictionary<string, string>.Empty
            .Add("LD_PRELOAD", LibraryPath())
            .Add("FAKETIME_TIMESTAMP_FILE", ClockFile)
            .Add("FAKETIME_NO_CACHE", "1")
            .Add("FAKETIME_DONT_FAKE_MONOTONIC", "1"),
    };

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Clock_IsPutBackAnHour_KeepsTheOrderOfRecordingAndLosesNothing()
    {
        await PutClockAsync("+0");
        List<PostReadingRequest> acknowledged = [];
        List<Reading> stored = [];
        var readings = new ReadingMaker("line 1", seed: 3);
        using (var server = await ServerProcess.StartAsync(SetUp, Token))
        {
            await using var client = ClearViewClient.Connect(server.Address);
            await PostAsync(client);
            await PutClockAsync("-3600");
            await PostAsync(client);
            await Inventory.CheckAsync(server.Address, acknowledged, Token);
            await server.KillAsync();
        }

        // A start at an earlier time than what is stored.
        using var again = await ServerProcess.StartAsync(SetUp, Token);
        await using var last = ClearViewClient.Connect(again.Address);
        await PostAsync(last);

        await Inventory.CheckAsync(again.Address, acknowledged, Token);
        Assert.All(stored[..10].Zip(stored[10..20]), pair => Assert.InRange(
            (pair.First.RecordedAt.ToDateTimeOffset() - pair.Second.RecordedAt.ToDateTimeOffset()).TotalMinutes, 50, 60));

        async Task PostAsync(ClearViewClient client)
        {
            foreach (var reading in readings.Next(10))
            {
                stored.Add((await client.PostAsync(reading, Token)).Reading);
                acknowledged.Add(reading);
            }
        }
    }

    private static string LibraryPath() =>
        Directory.GetDirectories("/usr/lib").Select(folder => Path.Combine(folder, "faketime", "libfaketimeMT.so.1")).FirstOrDefault(File.Exists)
        ?? throw new InvalidOperationException("libfaketimeMT.so.1 is not installed. Install Debian's package \"faketime\"; tests/run does.");

    // Replaced as a whole, so that the server never reads half of it.
    private async Task PutClockAsync(string offset)
    {
        await File.WriteAllTextAsync(ClockFile + ".new", offset + "\n", Token);
        File.Move(ClockFile + ".new", ClockFile, overwrite: true);
    }
}
