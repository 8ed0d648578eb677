using ClearView.Client;
using ClearView.EndToEnd.Tests.Lines;
using ClearView.EndToEnd.Tests.Servers;
using ClearView.V1;

namespace ClearView.EndToEnd.Tests.Faults;

/// <summary>A watch outlives the server that it watches: no reading is missing, and none comes twice.</summary>
public sealed class WatchOverRestartTests : IDisposable
{
    private const int Restarts = 3;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-watch-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Store => Path.Combine(_folder.FullName, "readings.db");

    public void Dispose() => _folder.Delete(recursive: true);

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public async Task Watch_ServerKilledOrStoppedAndStartedOnItsPort_GoesOnWithoutGapOrRepetition(bool isKilled)
    {
        var server = await ServerProcess.StartAsync(Store, Token);
        try
        {
            var address = server.Address;
            var interruptions = 0;
            List<Reading> seen = [];
            using var giveUp = CancellationTokenSource.CreateLinkedTokenSource(Token);
            await using var watcher = ClearViewClient.Connect(address);
            var watching = Task.Run(
                async () =>
                {
                    var request = new WatchReadingsRequest { FromBeginning = true };
                    await foreach (var answer in watcher.WatchAsync(request, _ => Interlocked.Increment(ref interruptions), giveUp.Token))
                    {
                        if (answer.Reading is { } reading)
                        {
                            lock (seen)
                            {
                                seen.Add(reading);
                            }
                        }
                    }
                },
                Token);

            async Task SeeAsync(int count)
            {
                using var patience = new CancellationTokenSource(Patience);
                while (CountOf(seen) < count)
                {
                    Assert.False(watching.IsCompleted, "the watch ended");
                    await Task.Delay(10, patience.Token);
                }
            }

            await using var posting = new Posting(ServerAddresses.Of(address), lines: 2, Token);
            await posting.WaitForAsync(20);
            for (var restart = 0; restart < Restarts; restart++)
            {
                // Otherwise two stops may fall into one interruption.
                await SeeAsync(posting.AcknowledgedCount);
                if (isKilled)
                {
                    await server.KillAsync();
                }
                else
                {
                    Assert.Equal(0, (await server.TerminateAsync()).ExitCode);
                }

                server.Dispose();
                server = await ServerProcess.StartAsync(Store, Token, address.Port);
                await posting.WaitForAsync(20);
            }

            await posting.StopAsync();
            await SeeAsync(posting.AcknowledgedCount);
            await giveUp.CancelAsync();
            await Assert.ThrowsAnyAsync<OperationCanceledException>(() => watching);

            // Each line has one reading on its way at a time, so that its readings are recorded in the order of posting.
            foreach (var line in posting.Lines)
            {
                var ofLine = seen.Where(reading => reading.Measurement.Identification.Line == line.Acknowledged[0].Measurement.Identification.Line);
                Assert.Equal(line.Acknowledged.Select(post => post.ReadingId), ofLine.Select(reading => reading.ReadingId));
            }

            Assert.Equal(posting.AcknowledgedCount, seen.Count);
            Assert.InRange(interruptions, Restarts, int.MaxValue);
            await Inventory.CheckAsync(address, posting.Lines, Token);
        }
        finally
        {
            server.Dispose();
        }
    }

    private static int CountOf(List<Reading> seen)
    {
        lock (seen)
        {
            return seen.Count;
        }
    }
}
