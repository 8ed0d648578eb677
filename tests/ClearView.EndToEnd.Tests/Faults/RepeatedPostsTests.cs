using ClearView.Client;
using ClearView.EndToEnd.Tests.Lines;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.V1;

namespace ClearView.EndToEnd.Tests.Faults;

/// <summary>The same readings come several times, from several clients at once, each in an order of its own.</summary>
public sealed class RepeatedPostsTests : IDisposable
{
    private const int Clients = 6;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-repeated-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Post_SameReadingsFromManyClientsInAnyOrder_StoresEachOnceAndTellsOnePosterSo()
    {
        using var server = await ServerProcess.StartAsync(Path.Combine(_folder.FullName, "readings.db"), Token);
        var readings = new ReadingMaker("line 1", seed: 13).Next(100);

        var firsts = await Task.WhenAll(Enumerable.Range(0, Clients).Select(seed => PostShuffledAsync(server, readings, seed)));

        // Each identifier was new to exactly one of them.
        Assert.Equal(readings.Select(reading => reading.ReadingId).Order(), firsts.SelectMany(ids => ids).Order());
        await Inventory.CheckAsync(server.Address, readings, Token);
    }

    private static async Task<List<string>> PostShuffledAsync(ServerProcess server, List<PostReadingRequest> readings, int seed)
    {
        var shuffled = readings.ToArray();
        new Random(seed).Shuffle(shuffled);
        await using var client = ClearViewClient.Connect(server.Address);
        List<string> stored = [];
        foreach (var reading in shuffled)
        {
            if (!(await client.PostAsync(reading, Token)).AlreadyStored)
            {
                stored.Add(reading.ReadingId);
            }
        }

        return stored;
    }
}
