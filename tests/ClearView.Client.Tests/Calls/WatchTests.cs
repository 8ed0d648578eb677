using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

public class WatchTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Watch_ThatBreaksOrFallsSilent_GoesOnBehindTheLastAnswer(bool silent)
    {
        var readings = new FakeReadings { WatchedBeforeBreak = 3, WatchFallsSilent = silent };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = Connect(server, silent ? TimeSpan.FromMilliseconds(300) : TimeSpan.FromSeconds(30));
        List<ClearViewCallException> interruptions = [];
        List<string> seen = [];

        await foreach (var answer in client.WatchAsync(new WatchReadingsRequest { FromBeginning = true, Line = "3" }, interruptions.Add, Token))
        {
            seen.Add(answer.Reading.ReadingId);
            if (seen.Count == 8)
            {
                break;
            }
        }

        Assert.Equal(["1", "2", "3", "4", "5", "6", "7", "8"], seen);
        Assert.Equal(["", "3", "6"], readings.Watches.Select(watch => watch.Position));
        Assert.Equal([true, false, false], readings.Watches.Select(watch => watch.FromBeginning));
        Assert.All(readings.Watches, watch => Assert.Equal("3", watch.Line));
        Assert.Equal(2, interruptions.Count);
        Assert.All(interruptions, one => Assert.Equal(silent ? StatusCode.DeadlineExceeded : StatusCode.Unavailable, one.Status));
    }

    [Fact]
    public async Task Watch_ThatNeverBegins_TellsSoAfterItsAttempts()
    {
        var readings = new FakeReadings { CallsToFail = 10 };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = Connect(server, TimeSpan.FromSeconds(30));

        var error = await Assert.ThrowsAsync<ClearViewCallException>(() => FirstAsync(client));

        Assert.Equal(StatusCode.Unavailable, error.Status);
        Assert.Equal(4, readings.Watches.Count);
    }

    [Fact]
    public async Task Watch_ThatIsRefused_IsNotRepeated()
    {
        var readings = new FakeReadings { CallsToFail = 10, Fault = StatusCode.InvalidArgument };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = Connect(server, TimeSpan.FromSeconds(30));

        var error = await Assert.ThrowsAsync<ClearViewCallException>(() => FirstAsync(client));

        Assert.Equal(StatusCode.InvalidArgument, error.Status);
        Assert.Single(readings.Watches);
    }

    private static async Task FirstAsync(ClearViewClient client)
    {
        await foreach (var _ in client.WatchAsync(new WatchReadingsRequest(), cancellationToken: Token))
        {
            return;
        }
    }

    private static ClearViewClient Connect(FakeServer server, TimeSpan silence) => ClearViewClient.Connect(server.Address, new ClearViewClientOptions
    {
        InitialBackoff = TimeSpan.FromMilliseconds(5),
        MaxBackoff = TimeSpan.FromMilliseconds(20),
        WatchSilence = silence,
    });
}
