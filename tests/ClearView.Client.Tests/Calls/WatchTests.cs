using ClearView.Client.Calls;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;
using Google.Rpc;

using Grpc.Core;

using Status = Grpc.Core.Status;

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

    [Fact]
    public async Task Watch_ThatIsToldToWait_GoesOnBehindTheLastAnswer()
    {
        var readings = new FakeReadings { WatchedBeforeBreak = 3, WatchBreak = TakesNoMore(TimeSpan.FromMilliseconds(1)) };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = Connect(server, TimeSpan.FromSeconds(30));
        List<ClearViewCallException> interruptions = [];

        var seen = await client.WatchAsync(new WatchReadingsRequest { FromBeginning = true }, interruptions.Add, Token)
            .Take(8).Select(answer => answer.Reading.ReadingId).ToListAsync(Token);

        Assert.Equal(["1", "2", "3", "4", "5", "6", "7", "8"], seen);
        Assert.Equal([StatusCode.ResourceExhausted, StatusCode.ResourceExhausted], interruptions.Select(one => one.Status));
    }

    [Fact]
    public void Pause_IsNotShorterThanTheServerAsksFor_UpToAMinute()
    {
        var options = new ClearViewClientOptions { InitialBackoff = TimeSpan.FromMilliseconds(10), MaxBackoff = TimeSpan.FromMilliseconds(20) };

        Assert.Equal(TimeSpan.FromSeconds(7), PauseAfter(TakesNoMore(TimeSpan.FromSeconds(7))));
        Assert.Equal(TimeSpan.FromMinutes(1), PauseAfter(TakesNoMore(TimeSpan.FromDays(7))));
        Assert.InRange(PauseAfter(new RpcException(new Status(StatusCode.ResourceExhausted, "full"))), TimeSpan.FromMilliseconds(5), TimeSpan.FromMilliseconds(10));

        TimeSpan PauseAfter(RpcException fault) => RetryRules.PauseAfter(options, 1, CallFault.From(fault, "a server"));
    }

    // Over the same reading each time, whether or not the server first says where it stands.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Watch_OfAServerThatFailsAtOnePlace_EndsAfterItsAttempts(bool saysItsPlace)
    {
        var readings = new FakeReadings { LastWatched = 3, WatchSaysItsPlace = saysItsPlace, WatchBreak = Failed() };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = Connect(server, TimeSpan.FromSeconds(30));
        List<string> seen = [];

        var error = await Assert.ThrowsAsync<ClearViewCallException>(async () =>
        {
            await foreach (var answer in client.WatchAsync(new WatchReadingsRequest { FromBeginning = true }, cancellationToken: Token))
            {
                seen.AddRange(answer.Reading is { } reading ? [reading.ReadingId] : []);
            }
        });

        Assert.Equal(StatusCode.Internal, error.Status);
        Assert.Equal(["1", "2", "3"], seen);
        Assert.Equal(["", "3", "3", "3"], readings.Watches.Select(watch => watch.Position));
    }

    [Fact]
    public async Task Watch_OfAServerThatFailsNowAndThen_GoesOn()
    {
        var readings = new FakeReadings { WatchedBeforeBreak = 1, WatchBreak = Failed() };
        await using var server = await FakeServer.StartAsync(readings: readings);
        await using var client = Connect(server, TimeSpan.FromSeconds(30));

        var seen = await client.WatchAsync(new WatchReadingsRequest { FromBeginning = true }, cancellationToken: Token)
            .Take(9).Select(answer => answer.Reading.ReadingId).ToListAsync(Token);

        Assert.Equal("9", seen[^1]);
        Assert.Equal(9, readings.Watches.Count);
    }

    private static RpcException Failed() => new(new Status(StatusCode.Internal, "the reading is damaged"));

    private static RpcException TakesNoMore(TimeSpan delay) => new Google.Rpc.Status
    {
        Code = (int)Google.Rpc.Code.ResourceExhausted,
        Message = "too often",
        Details = { Any.Pack(new RetryInfo { RetryDelay = Duration.FromTimeSpan(delay) }) },
    }.ToRpcException();

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
