using ClearView.Client.Outbox;
using ClearView.EndToEnd.Tests.Lines;
using ClearView.EndToEnd.Tests.Outboxes;
using ClearView.EndToEnd.Tests.Servers;

using Google.Protobuf;

namespace ClearView.EndToEnd.Tests.Faults;

/// <summary>The line's own client is killed while it takes and sends readings, and is started again with the same input.</summary>
public sealed class KilledLineTests : IDisposable
{
    private const int Kills = 5;
    private const int Readings = 400;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-killed-line-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Outbox => Path.Combine(_folder.FullName, "outbox");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Kill_WhileTakingAndSending_StoresEveryReadingOnce()
    {
        var readings = new ReadingMaker("line 1", seed: 5).Next(Readings);
        var lines = readings.Select(reading => JsonFormatter.Default.Format(reading)).ToList();
        var random = new Random(5);
        var listen = "127.0.0.1:0";
        var server = await ServerProcess.StartAsync(SetUp(listen), Token);
        try
        {
            listen = server.Address.Authority;
            for (var kill = 0; kill < Kills; kill++)
            {
                using var client = Start(listen);
                var feeding = FeedAsync(client, lines);
                await Task.Delay(random.Next(400, 1500), Token);

                // Every other time the server goes as well.
                if (kill % 2 == 1)
                {
                    await server.KillAsync();
                    server.Dispose();
                    server = await ServerProcess.StartAsync(SetUp(listen), Token);
                }

                await client.KillAsync();
                await feeding;
            }

            using (var last = Start(listen))
            {
                await FeedAsync(last, lines);
                Assert.Equal(0, await last.EndAsync());
            }

            var status = OutboxStatus.Read(Outbox);
            Assert.Equal(0, status.Waiting);
            Assert.Empty(status.Refused);
            await Inventory.CheckAsync(server.Address, readings, Token);
        }
        finally
        {
            server.Dispose();
        }
    }

    // Ends early where the client does.
    private static async Task FeedAsync(PosterProcess client, List<string> lines)
    {
        try
        {
            foreach (var line in lines)
            {
                await client.Input.WriteLineAsync(line.AsMemory(), Token);
            }

            client.Input.Close();
        }
        catch (IOException)
        {
        }
    }

    private ServerSetUp SetUp(string listen) => new(Path.Combine(_folder.FullName, "readings.db")) { Listen = listen };

    private PosterProcess Start(string server) => PosterProcess.Start(_folder.FullName, "--stdin", "--outbox", Outbox, "--server", server);
}
