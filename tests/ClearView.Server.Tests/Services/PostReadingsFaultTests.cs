using ClearView.Contract;
using ClearView.Contract.Tests;
using ClearView.Records.Model;
using ClearView.Server.Live;
using ClearView.Server.Posting;
using ClearView.Server.Security;
using ClearView.Server.Services;
using ClearView.V1;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;

using static ClearView.Server.Tests.Services.PostStreamExamples;

namespace ClearView.Server.Tests.Services;

/// <summary>What a stream of posts does when its client, the store or the server does not go on.</summary>
public sealed class PostReadingsFaultTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task PostReadings_ClientNeverReads_ServerTakesNoMoreThanItsRoom()
    {
        var store = new GatedStore();
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<IReadingStore>(store));
        using var call = server.Readings.PostReadings(cancellationToken: Token);
        using var enough = CancellationTokenSource.CreateLinkedTokenSource(Token);

        var sending = WriteUntilStoppedAsync(call, enough.Token);
        await store.WaitForAsync(PostStream.MostUnanswered, Token);

        // The room is full: only an answer lets the next one in, which is then the only one.
        store.Store(1);
        await store.WaitForAsync(1, Token);
        Assert.Equal(PostStream.MostUnanswered + 1, store.HandedIn);
        await enough.CancelAsync();
        await sending;
        Assert.Equal(PostStream.MostUnanswered + 1, store.HandedIn);
        store.Store(PostStream.MostUnanswered);
    }

    [Fact]
    public async Task Stream_AnswersAreNotTaken_NoMoreIsReadThanFindsRoom()
    {
        var store = new GatedStore();
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
        var requests = new EndlessPosts();
        var responses = new StuckWriter();
        var running = new PostStream(
            poster, new RecordingRoom(long.MaxValue), new PostSource("", Caller.Everybody), requests, responses, gone.Token, CancellationToken.None).RunAsync();

        // Everything is stored, one answer is under way and stays so: one more post is read than finds room, and waits.
        await store.WaitForAsync(PostStream.MostUnanswered, Token);
        store.Store(PostStream.MostUnanswered);
        await responses.Begun.WaitAsync(Token);
        await requests.WaitForAsync(PostStream.MostUnanswered + 1, Token);
        await gone.CancelAsync();

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => running);
        Assert.Equal(PostStream.MostUnanswered + 1, requests.Count);
        Assert.Equal(PostStream.MostUnanswered, store.HandedIn);
    }

    [Fact]
    public async Task Room_BytesAreTaken_HoldsTheNextPost()
    {
        var room = new PostRoom(mostPosts: 256, mostBytes: 100);
        await room.EnterAsync(500, Token);

        var second = room.EnterAsync(60, Token).AsTask();
        Assert.False(second.IsCompleted);
        room.Leave(500);
        await second;
        var third = room.EnterAsync(41, Token).AsTask();
        Assert.False(third.IsCompleted);
        room.Leave(60);
        await third;
    }

    [Fact]
    public async Task PostReadings_StoreFails_AnswersWhatIsBeforeAndEndsWithUnavailable()
    {
        var store = new GatedStore();
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<IReadingStore>(store));
        using var call = server.Readings.PostReadings(cancellationToken: Token);
        for (var number = 0; number < 4; number++)
        {
            await call.RequestStream.WriteAsync(Post(number), Token);
        }

        await store.WaitForAsync(4, Token);
        store.Store(2);
        store.Fail();
        store.Fail();

        Assert.True(await call.ResponseStream.MoveNext(Token));
        Assert.True(await call.ResponseStream.MoveNext(Token));
        Assert.Equal(Id(1), call.ResponseStream.Current.ReadingId);
        var error = await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(Token));
        Assert.Equal(StatusCode.Unavailable, error.StatusCode);
        Assert.DoesNotContain("disk", error.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task PostReadings_ServerStops_AnswersWhatItHasTakenAndEndsWithUnavailable()
    {
        var store = new GatedStore();
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<IReadingStore>(store));
        using var call = server.Readings.PostReadings(cancellationToken: Token);
        for (var number = 0; number < 3; number++)
        {
            await call.RequestStream.WriteAsync(Post(number), Token);
        }

        await store.WaitForAsync(3, Token);
        var stopping = server.StopAsync();
        store.Store(3);

        for (var number = 0; number < 3; number++)
        {
            Assert.True(await call.ResponseStream.MoveNext(Token));
            Assert.Equal(Id(number), call.ResponseStream.Current.ReadingId);
        }

        var error = await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(Token));
        await stopping.WaitAsync(TimeSpan.FromSeconds(15), Token);
        Assert.Equal(StatusCode.Unavailable, error.StatusCode);
        Assert.Contains("stopping", error.Status.Detail, StringComparison.Ordinal);
    }

    [Fact]
    public async Task PostReadings_ClientGoesAway_WhatWasTakenIsStored()
    {
        await using var server = await TestServer.StartAsync();
        using (var cancel = CancellationTokenSource.CreateLinkedTokenSource(Token))
        using (var call = server.Readings.PostReadings(cancellationToken: cancel.Token))
        {
            await call.RequestStream.WriteAsync(Post(1), Token);
            Assert.True(await call.ResponseStream.MoveNext(Token));
            await cancel.CancelAsync();
        }

        var answers = await RunAsync(server, [Post(1), Post(2)]);

        Assert.Equal([true, false], answers.Select(answer => answer.Acknowledgement.AlreadyStored));
    }

    private static async Task WriteUntilStoppedAsync(AsyncDuplexStreamingCall<PostReadingsRequest, PostReadingsResponse> call, CancellationToken stop)
    {
        try
        {
            for (var number = 0; ; number++)
            {
                await call.RequestStream.WriteAsync(Post(number), stop);
            }
        }
        catch (Exception error) when (error is OperationCanceledException or RpcException or InvalidOperationException)
        {
            // Held, and then told to stop.
        }
    }
}
