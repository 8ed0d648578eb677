using System.Collections.Concurrent;

using ClearView.Client;
using ClearView.Client.Outbox;
using ClearView.EndToEnd.Tests.Servers;

namespace ClearView.EndToEnd.Tests.Outboxes;

/// <summary>Readings on their way over a stream survive a server that is killed again and again, each once and in the order of its line.</summary>
public sealed class KilledStreamTests : IDisposable
{
    private const int Lines = 3;
    private const int ReadingsPerLine = 1500;
    private const int Kills = 4;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-stream-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Store => Path.Combine(_folder.FullName, "readings.db");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Kill_WhileStreaming_EveryReadingIsStoredOnceInTheOrderOfItsLine()
    {
        var posts = Enumerable.Range(1, Lines).SelectMany(line => LineReadings.Make(FormattableString.Invariant($"line {line}"), ReadingsPerLine)).ToList();
        var done = new ConcurrentQueue<OutboxEvent>();
        using var outbox = ReadingOutbox.Open(Path.Combine(_folder.FullName, "outbox"), Quick, what =>
        {
            if (what.Kind is OutboxEventKind.Stored or OutboxEventKind.AlreadyStored or OutboxEventKind.Refused)
            {
                done.Enqueue(what);
            }
        });
        outbox.Accept(posts);
        var server = await ServerProcess.StartAsync(Store, Token);
        try
        {
            await using var client = ClearViewClient.Connect(server.Address, new ClearViewClientOptions { MaxAttempts = 1 });
            var sending = new OutboxPump(outbox, new StreamReadingSender(client), Quick).RunAsync(Task.CompletedTask, Token);
            for (var kill = 1; kill <= Kills; kill++)
            {
                // Each time further on, in the middle of what is under way.
                while (done.Count < posts.Count * kill / (Kills + 2) && !sending.IsCompleted)
                {
                    await Task.Delay(1, Token);
                }

                Assert.False(sending.IsCompleted, "everything was sent before the server was killed");
                await server.KillAsync();
                server.Dispose();
                server = await ServerProcess.StartAsync(Store, Token, server.Address.Port);
            }

            await sending;
            Assert.Equal(0, (await server.TerminateAsync()).ExitCode);
        }
        finally
        {
            server.Dispose();
        }

        Assert.DoesNotContain(done, one => one.Kind == OutboxEventKind.Refused);
        Assert.Equal(posts.Select(post => post.ReadingId).Order(StringComparer.Ordinal), done.Select(one => one.ReadingId).Order(StringComparer.Ordinal));
        LineReadings.AssertStored(Store, posts);
    }

    private static OutboxOptions Quick => new()
    {
        InitialBackoff = TimeSpan.FromMilliseconds(20),
        MaxBackoff = TimeSpan.FromMilliseconds(200),
        LeastFreeBytes = 0,
    };
}
