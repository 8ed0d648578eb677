using ClearView.Contract;
using ClearView.Contract.Tests;
using ClearView.Records.Model;
using ClearView.Server.Live;
using ClearView.Server.Posting;
using ClearView.Server.Security;
using ClearView.Server.Services;
using ClearView.Server.Tests.Services;
using ClearView.V1;

using Google.Rpc;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;

using static ClearView.Server.Tests.Services.PostStreamExamples;

namespace ClearView.Server.Tests.Posting;

/// <summary>What becomes of posts where no room is left for what waits to be recorded.</summary>
public sealed class FullRoomTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    // As large as one post, so that a second one has to wait.
    private static int PostBytes => Post(1).Post.CalculateSize();

    [Fact]
    public async Task Streams_NoRoom_WaitForEachOther()
    {
        var (store, room) = (new GatedStore(), new RecordingRoom(PostBytes));
        await using var server = await StartAsync(store, room);
        using var first = server.Readings.PostReadings(cancellationToken: Token);
        using var second = server.Readings.PostReadings(cancellationToken: Token);

        await first.RequestStream.WriteAsync(Post(1), Token);
        await store.WaitForAsync(1, Token);
        await second.RequestStream.WriteAsync(Post(2), Token);
        await UntilAsync(() => room.WaitingBytes == PostBytes);
        Assert.Equal(1, store.HandedIn);

        store.Store(1);
        await store.WaitForAsync(1, Token);
        store.Store(1);
        Assert.True(await first.ResponseStream.MoveNext(Token));
        Assert.True(await second.ResponseStream.MoveNext(Token));
        Assert.Equal((Id(1), Id(2)), (first.ResponseStream.Current.ReadingId, second.ResponseStream.Current.ReadingId));
        await UntilAsync(() => room.TakenBytes == 0);
    }

    [Fact]
    public async Task PostReading_NoRoomUntilItsDeadline_IsDeadlineExceededAndNothingIsHandedIn()
    {
        var (store, room) = (new GatedStore(), new RecordingRoom(PostBytes));
        await using var server = await StartAsync(store, room);
        using var first = server.Readings.PostReadingAsync(Post(1).Post, cancellationToken: Token);
        await store.WaitForAsync(1, Token);

        var second = server.Readings.PostReadingAsync(Post(2).Post, deadline: DateTime.UtcNow.AddSeconds(2), cancellationToken: Token);
        await Rpc.FailsAsync(StatusCode.DeadlineExceeded, second);
        await UntilAsync(() => room.WaitingBytes == 0);

        Assert.Equal((1, (long)PostBytes), (store.HandedIn, room.TakenBytes));
        store.Store(1);
        Assert.Equal(Id(1), (await first).Reading.ReadingId);
        await UntilAsync(() => room.TakenBytes == 0);
    }

    [Fact]
    public async Task PostReading_NoPlaceToWait_IsTurnedAwayWithTheTimeToTryAgain()
    {
        var (store, room) = (new GatedStore(), new RecordingRoom(PostBytes));
        await using var server = await StartAsync(store, room);
        using var first = server.Readings.PostReadingAsync(Post(1).Post, cancellationToken: Token);
        await store.WaitForAsync(1, Token);
        using var second = server.Readings.PostReadingAsync(Post(2).Post, cancellationToken: Token);
        await UntilAsync(() => room.WaitingBytes == PostBytes);

        var error = await Rpc.FailsAsync(StatusCode.ResourceExhausted, server.Readings.PostReadingAsync(Post(3).Post, cancellationToken: Token));

        Assert.Equal(1, error.GetRpcStatus()?.GetDetail<RetryInfo>()?.RetryDelay.Seconds);
        Assert.DoesNotContain("message size", error.Status.Detail, StringComparison.Ordinal);
        store.Store(1);
        await store.WaitForAsync(1, Token);
        store.Store(1);
        Assert.Equal((Id(1), Id(2)), ((await first).Reading.ReadingId, (await second).Reading.ReadingId));
    }

    [Fact]
    public async Task StoreFails_OrPostsAreRefused_RoomIsGivenBack()
    {
        var (store, room) = (new GatedStore(), new RecordingRoom(10 * PostBytes));
        await using var server = await StartAsync(store, room);

        using var unary = server.Readings.PostReadingAsync(Post(1).Post, cancellationToken: Token);
        await store.WaitForAsync(1, Token);
        store.Fail();
        await Rpc.FailsAsync(StatusCode.Unavailable, unary);
        await Rpc.FailsAsync(StatusCode.InvalidArgument, server.Readings.PostReadingAsync(new PostReadingRequest { ReadingId = "none" }, cancellationToken: Token));
        using var stream = server.Readings.PostReadings(cancellationToken: Token);
        await stream.RequestStream.WriteAsync(Post(2, post => post.ReadingId = "none"), Token);
        Assert.True(await stream.ResponseStream.MoveNext(Token));
        Assert.NotNull(stream.ResponseStream.Current.Refusal);
        await stream.RequestStream.WriteAsync(Post(3), Token);
        await stream.RequestStream.WriteAsync(Post(4), Token);
        await store.WaitForAsync(2, Token);
        store.Fail();
        store.Fail();
        await Assert.ThrowsAsync<RpcException>(() => stream.ResponseStream.MoveNext(Token));

        await UntilAsync(() => room.TakenBytes == 0);
    }

    [Fact]
    public async Task ClientsGoAway_RoomIsGivenBackOnceTheirPostsAreRecorded()
    {
        var (store, room) = (new GatedStore(), new RecordingRoom(2 * PostBytes));
        await using var server = await StartAsync(store, room);
        using var cancel = CancellationTokenSource.CreateLinkedTokenSource(Token);
        using var stream = server.Readings.PostReadings(cancellationToken: cancel.Token);
        await stream.RequestStream.WriteAsync(Post(1), Token);
        using var unary = server.Readings.PostReadingAsync(Post(2).Post, cancellationToken: cancel.Token);
        await store.WaitForAsync(2, Token);
        await stream.RequestStream.WriteAsync(Post(3), Token);
        await UntilAsync(() => room.WaitingBytes > 0);

        await cancel.CancelAsync();
        await UntilAsync(() => room.WaitingBytes == 0);
        Assert.Equal(2 * PostBytes, room.TakenBytes);
        store.Store(2);
        await UntilAsync(() => room.TakenBytes == 0);
        Assert.Equal(2, store.HandedIn);
    }

    [Fact]
    public async Task Stream_AnswersAreNeverTaken_RecordedPostsLeaveTheRoom()
    {
        var (store, room) = (new GatedStore(), new RecordingRoom(long.MaxValue));
        using var charts = new LiveCharts(
            new FailingVersionedStore(), new FailingSeriesStore(), new UnwatchedStore(), WireExamples.Clock, NullLogger<LiveCharts>.Instance);
        var methods = new MethodResolver(new FailingVersionedStore());
        var poster = new ReadingPoster(
            store,
            new UnwatchedStore(),
            (measurement, method, omitSpectra) => MeasurementEvaluator.Evaluate(measurement, method, WireExamples.Clock, omitSpectra),
            methods,
            new SpecificationResolver(new FailingVersionedStore(), methods),
            charts,
            WireExamples.Clock,
            NullLogger<ReadingPoster>.Instance);
        using var gone = CancellationTokenSource.CreateLinkedTokenSource(Token);
        var responses = new StuckWriter();
        var running = new PostStream(
            poster, room, new PostSource("", Caller.Everybody), new EndlessPosts(), responses, gone.Token, CancellationToken.None).RunAsync();

        await store.WaitForAsync(PostStream.MostUnanswered, Token);
        Assert.True(room.TakenBytes > 0);
        store.Store(PostStream.MostUnanswered);
        await responses.Begun.WaitAsync(Token);

        // Every one is recorded, and none is answered.
        await UntilAsync(() => room.TakenBytes == 0);
        await gone.CancelAsync();
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
    }

    [Fact]
    public async Task PostReadings_ReadingsSentAlong_AreWholeHoweverLateTheirAnswersAreTaken()
    {
        await using var server = await TestServer.StartAsync();
        const int count = 100;
        using var call = server.Readings.PostReadings(cancellationToken: Token);
        for (var number = 0; number < count; number++)
        {
            var post = Post(number);
            post.IncludeReading = true;
            await call.RequestStream.WriteAsync(post, Token);
        }

        await call.RequestStream.CompleteAsync();
        for (var number = 0; number < count; number++)
        {
            Assert.True(await call.ResponseStream.MoveNext(Token));
            var reading = call.ResponseStream.Current.Acknowledgement.Reading;
            var stored = await server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = Id(number) }, cancellationToken: Token);
            Assert.Equal(stored.Reading, reading);
        }

        Assert.False(await call.ResponseStream.MoveNext(Token));
    }

    private static Task<TestServer> StartAsync(GatedStore store, RecordingRoom room) =>
        TestServer.StartAsync(services => services.AddSingleton<IReadingStore>(store).AddSingleton(room));

    private static async Task UntilAsync(Func<bool> isSo)
    {
        while (!isSo())
        {
            await Task.Delay(5, Token);
        }
    }
}
