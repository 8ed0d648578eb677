using System.Text;

using ClearView.Client.Outbox;
using ClearView.EndToEnd.Tests.Lines;
using ClearView.EndToEnd.Tests.Outboxes;
using ClearView.EndToEnd.Tests.Servers;

using Google.Protobuf;

namespace ClearView.EndToEnd.Tests.Faults;

/// <summary>Bytes of an outbox rot on the disk while readings wait in it.</summary>
public sealed class DamagedOutboxTests : IDisposable
{
    private const int Readings = 40;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-damaged-outbox-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Outbox => Path.Combine(_folder.FullName, "outbox");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Outbox_BytesOfOneReadingRot_SendsTheOthersTellsOfTheDamageAndTakesTheReadingAgain()
    {
        using var server = await ServerProcess.StartAsync(Path.Combine(_folder.FullName, "readings.db"), Token);
        var readings = new ReadingMaker("line 1", seed: 23).Next(Readings);
        using (var outbox = ReadingOutbox.Open(Outbox))
        {
            outbox.Accept(readings);
        }

        Damage(readings[Readings / 2].ReadingId);
        using (var poster = Start(server))
        {
            poster.Input.Close();
            Assert.Equal(0, await poster.EndAsync());
            Assert.Equal(Readings - 1, poster.StoredCount());
        }

        var status = OutboxStatus.Read(Outbox);
        Assert.Equal(0, status.Waiting);
        Assert.Single(status.Quarantined);
        Assert.NotEmpty(status.Alarms);
        await Inventory.CheckAsync(server.Address, [.. readings.Where((_, number) => number != Readings / 2)], Token);

        // The instrument's program still has it: all of them again, of which one is missing.
        using (var poster = Start(server))
        {
            foreach (var reading in readings)
            {
                await poster.Input.WriteLineAsync(JsonFormatter.Default.Format(reading));
            }

            poster.Input.Close();
            Assert.Equal(0, await poster.EndAsync());
        }

        await Inventory.CheckAsync(server.Address, readings, Token);
    }

    private PosterProcess Start(ServerProcess server) =>
        PosterProcess.Start(_folder.FullName, "--stdin", "--outbox", Outbox, "--server", server.Address.Authority);

    // One bit behind the identifier, which stands in the middle of the reading's record.
    private void Damage(string readingId)
    {
        var file = Directory.GetFiles(Outbox, "*", SearchOption.AllDirectories)
            .Single(file => File.ReadAllBytes(file).AsSpan().IndexOf(Encoding.UTF8.GetBytes(readingId)) >= 0);
        var bytes = File.ReadAllBytes(file);
        bytes[bytes.AsSpan().IndexOf(Encoding.UTF8.GetBytes(readingId)) + 100] ^= 0x10;
        File.WriteAllBytes(file, bytes);
    }
}
