using ClearView.Server.Posting;

namespace ClearView.Server.Tests.Posting;

public sealed class RecordingRoomTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Enter_ThereIsRoom_DoesNotWait()
    {
        var room = new RecordingRoom(100);

        using var first = await room.EnterAsync(60, Token);
        using (await room.EnterAsync(40, Token))
        {
            Assert.Equal((100, 0), (room.TakenBytes, room.WaitingBytes));
        }

        Assert.Equal(60, room.TakenBytes);
        first.Dispose();
        first.Dispose();
        Assert.Equal(0, room.TakenBytes);
    }

    [Fact]
    public async Task Enter_NoRoom_WaitsInTheOrderOfComing()
    {
        var room = new RecordingRoom(100);
        var first = await room.EnterAsync(90, Token);
        var large = room.EnterAsync(80, Token).AsTask();
        var small = room.EnterAsync(10, Token).AsTask();

        // The small one would find room, and does not overtake.
        Assert.Equal((90, 90, false, false), (room.TakenBytes, room.WaitingBytes, large.IsCompleted, small.IsCompleted));
        first.Dispose();
        var second = await large;
        using var third = await small;
        Assert.Equal((90, 0), (room.TakenBytes, room.WaitingBytes));
        second.Dispose();
        Assert.Equal(10, room.TakenBytes);
    }

    [Fact]
    public async Task Enter_LargerThanTheRoom_TakesAllOfIt()
    {
        var room = new RecordingRoom(100);
        var first = await room.EnterAsync(1, Token);
        var whole = room.EnterAsync(1000, Token).AsTask();

        Assert.False(whole.IsCompleted);
        first.Dispose();
        (await whole).Dispose();
        Assert.Equal(0, room.TakenBytes);
    }

    [Fact]
    public async Task Enter_GivenUpWhileItWaits_LetsInWhoWaitsBehind()
    {
        var room = new RecordingRoom(100);
        using var first = await room.EnterAsync(90, Token);
        using var gone = CancellationTokenSource.CreateLinkedTokenSource(Token);
        var large = room.EnterAsync(80, gone.Token).AsTask();
        var small = room.EnterAsync(10, Token).AsTask();

        await gone.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => large);
        (await small).Dispose();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(async () => await room.EnterAsync(1, gone.Token));
        Assert.Equal((90, 0), (room.TakenBytes, room.WaitingBytes));
    }

    [Fact]
    public async Task EnterOrTurnAway_AsMuchWaitsAsTheRoomHolds_TurnsAway()
    {
        var room = new RecordingRoom(100);
        var first = await room.EnterAsync(100, Token);
        var second = room.EnterOrTurnAwayAsync(70, Token).AsTask();

        Assert.Null(await room.EnterOrTurnAwayAsync(31, Token));
        var third = room.EnterOrTurnAwayAsync(30, Token).AsTask();
        Assert.Equal((100, 100), (room.TakenBytes, room.WaitingBytes));
        first.Dispose();
        (await second)?.Dispose();
        (await third)?.Dispose();
        Assert.Equal((0, 0), (room.TakenBytes, room.WaitingBytes));
    }

    [Fact]
    public async Task Enter_ManyThatLeaveAndGiveUpAtOnce_NothingIsLostOrTakenTwice()
    {
        var room = new RecordingRoom(100);
        var inside = 0L;
        var random = new Random(5);
        var seeds = Enumerable.Range(0, 400).Select(_ => (Bytes: random.Next(1, 101), GivesUp: random.Next(3) == 0)).ToList();

        await Parallel.ForEachAsync(seeds, new ParallelOptions { MaxDegreeOfParallelism = 32, CancellationToken = Token }, async (seed, token) =>
        {
            using var giveUp = CancellationTokenSource.CreateLinkedTokenSource(token);
            var entering = room.EnterAsync(seed.Bytes, giveUp.Token).AsTask();
            if (seed.GivesUp)
            {
                await giveUp.CancelAsync();
            }

            try
            {
                using var place = await entering;
                Assert.InRange(Interlocked.Add(ref inside, seed.Bytes), 1, 100);
                await Task.Yield();
                Interlocked.Add(ref inside, -seed.Bytes);
            }
            catch (OperationCanceledException) when (seed.GivesUp)
            {
            }
        });

        Assert.Equal((0, 0), (room.TakenBytes, room.WaitingBytes));
    }
}
