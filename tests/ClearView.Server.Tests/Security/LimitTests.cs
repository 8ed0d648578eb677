using ClearView.Server.Configuration;
using ClearView.Server.Security;
using ClearView.Server.Tests.Live;
using ClearView.V1;

using Google.Rpc;

using Grpc.AspNetCore.Server;
using Grpc.Core;
using Grpc.Health.V1;

using Microsoft.AspNetCore.Http;

namespace ClearView.Server.Tests.Security;

public sealed class LimitTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public void Bucket_LetsABurstThrough_AndThenSoMuchPerSecond()
    {
        var clock = new ManualClock();
        var bucket = new TokenBucket(clock, perSecond: 4, burst: 2);

        Assert.True(bucket.TryTake(out _));
        Assert.True(bucket.TryTake(out _));
        Assert.False(bucket.TryTake(out var wait));
        Assert.Equal(TimeSpan.FromMilliseconds(250), wait);
        clock.Advance(wait);
        Assert.True(bucket.TryTake(out _));
        Assert.False(bucket.TryTake(out _));
        Assert.False(bucket.IsFull);
        clock.Advance(TimeSpan.FromHours(1));
        Assert.True(bucket.IsFull);
        Assert.True(bucket.TryTake(out _));
        Assert.True(bucket.TryTake(out _));
        Assert.False(bucket.TryTake(out _));
    }

    [Fact]
    public async Task Key_ThatCallsTooOften_IsToldWhenToTryAgain_AndHoldsUpNobodyElse()
    {
        await using var server = await GuardedServer.StartAsync(configure: options => options with { KeyRequestsPerSecond = 1 });
        var lab = (await server.CreateAsync("lab", Role.Lab)).Secret;
        await server.Call(lab);
        await server.Call(lab);

        var error = await Rpc.FailsAsync(StatusCode.ResourceExhausted, server.Call(lab));

        Assert.Equal(TimeSpan.FromSeconds(1), error.GetRpcStatus()!.GetDetail<RetryInfo>()!.RetryDelay.ToTimeSpan());
        await server.Call(server.Administrator);
        server.Clock.Advance(TimeSpan.FromSeconds(1));
        await server.Call(lab);
    }

    [Fact]
    public async Task Address_ThatFailsTooOften_IsToldSo_AndKeysStillOpenThere()
    {
        await using var server = await GuardedServer.StartAsync();
        for (var i = 0; i < 10; i++)
        {
            await Rpc.FailsAsync(StatusCode.Unauthenticated, server.Call(KeySecret.Create()));
        }

        await Rpc.FailsAsync(StatusCode.ResourceExhausted, server.Call(KeySecret.Create()));

        await server.Call(server.Administrator);
        server.Clock.Advance(TimeSpan.FromSeconds(1));
        await Rpc.FailsAsync(StatusCode.Unauthenticated, server.Call(KeySecret.Create()));
    }

    [Fact]
    public async Task Streams_OfAKey_AreBounded_AndOneThatEndsMakesRoom()
    {
        await using var server = await GuardedServer.StartAsync(configure: options => options with { KeyStreams = 1 });
        using (var first = server.Server.Evaluations.EvaluateMany(GuardedServer.With(server.Administrator), cancellationToken: Token))
        {
            await EchoAsync(first);
            using var second = server.Server.Evaluations.EvaluateMany(GuardedServer.With(server.Administrator), cancellationToken: Token);
            var error = await Assert.ThrowsAsync<RpcException>(() => second.ResponseStream.MoveNext(Token));
            Assert.Equal(StatusCode.ResourceExhausted, error.StatusCode);
            await first.RequestStream.CompleteAsync();
            Assert.False(await first.ResponseStream.MoveNext(Token));
        }

        using var third = server.Server.Evaluations.EvaluateMany(GuardedServer.With(server.Administrator), cancellationToken: Token);
        await EchoAsync(third);
    }

    // Whoever looks on, and whatever probes the server without a key, leaves the places of those who post alone.
    [Fact]
    public async Task Streams_OfEachKind_HavePlacesOfTheirOwn()
    {
        await using var server = await GuardedServer.StartAsync(configure: options => options with { KeyStreams = 1 });
        var headers = GuardedServer.With(server.Administrator);
        var probe = new Health.HealthClient(server.Server.Channel);
        using var health = probe.Watch(new HealthCheckRequest(), cancellationToken: Token);
        Assert.True(await health.ResponseStream.MoveNext(Token));
        using var watch = server.Server.Readings.WatchReadings(new WatchReadingsRequest(), headers, cancellationToken: Token);
        Assert.True(await watch.ResponseStream.MoveNext(Token));

        using var work = server.Server.Evaluations.EvaluateMany(headers, cancellationToken: Token);
        await EchoAsync(work);

        using var secondHealth = probe.Watch(new HealthCheckRequest(), cancellationToken: Token);
        using var secondWatch = server.Server.Readings.WatchReadings(new WatchReadingsRequest(), headers, cancellationToken: Token);
        var ofHealth = await Assert.ThrowsAsync<RpcException>(() => secondHealth.ResponseStream.MoveNext(Token));
        var ofWatch = await Assert.ThrowsAsync<RpcException>(() => secondWatch.ResponseStream.MoveNext(Token));
        Assert.Equal((StatusCode.ResourceExhausted, StatusCode.ResourceExhausted), (ofHealth.StatusCode, ofWatch.StatusCode));
        Assert.Contains("watches of the server's health", ofHealth.Status.Detail, StringComparison.Ordinal);
        Assert.Contains("watches of readings", ofWatch.Status.Detail, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/grpc.health.v1.Health/Watch", StreamKind.Health, StreamSlots.MostOfHealth)]
    [InlineData("/clearview.v1.ReadingService/WatchReadings", StreamKind.Watch, StreamSlots.MostOfAll)]
    [InlineData("/clearview.v1.ReadingService/PostReadings", StreamKind.Work, StreamSlots.MostOfAll)]
    public void Slots_OfAKind_AreBounded_AndOneGivenBackServesAgain(string method, object kind, int most)
    {
        var slots = new StreamSlots(new ServerOptions());
        Assert.Equal(kind, StreamSlots.KindOf(method));
        var taken = Enumerable.Range(0, most).Select(i => slots.Take((StreamKind)kind, $"caller {i}", isLimited: true)).ToList();

        Assert.Equal(StatusCode.ResourceExhausted, Assert.Throws<RpcException>(() => slots.Take((StreamKind)kind, "another", isLimited: true)).StatusCode);
        foreach (var other in Enum.GetValues<StreamKind>().Where(other => other != (StreamKind)kind))
        {
            slots.Take(other, "another", isLimited: true).Dispose();
        }

        taken[7].Dispose();
        slots.Take((StreamKind)kind, "another", isLimited: true).Dispose();
    }

    [Fact]
    public async Task Headers_BeyondTheBound_AreRefused()
    {
        await using var server = await TestServer.StartAsync();
        var headers = new Metadata { { "x-long", new string('x', TransportLimits.MaxHeaderBytes) } };

        await Assert.ThrowsAsync<RpcException>(() => server.Catalogue.GetCatalogueAsync(new GetCatalogueRequest(), headers, cancellationToken: Token).ResponseAsync);
        await server.Catalogue.GetCatalogueAsync(new GetCatalogueRequest(), cancellationToken: Token);
    }

    [Theory]
    [InlineData(MethodType.Unary, null, UnaryDeadlines.Imposed)]
    [InlineData(MethodType.Unary, "5S", "5S")]
    [InlineData(MethodType.DuplexStreaming, null, null)]
    [InlineData(MethodType.ServerStreaming, null, null)]
    public async Task Deadline_OfAUnaryCallWithoutOne_IsSet(MethodType type, string? sent, string? expected)
    {
        var marshaller = Marshallers.StringMarshaller;
        var metadata = new GrpcMethodMetadata(typeof(object), new Method<string, string>(type, "service", "method", marshaller, marshaller));
        var http = new DefaultHttpContext();
        http.SetEndpoint(new Endpoint(null, new EndpointMetadataCollection(metadata), "rpc"));
        if (sent is not null)
        {
            http.Request.Headers["grpc-timeout"] = sent;
        }

        await UnaryDeadlines.ApplyAsync(http, _ => Task.CompletedTask);

        Assert.Equal(expected, http.Request.Headers["grpc-timeout"].SingleOrDefault());
    }

    private static async Task EchoAsync(AsyncDuplexStreamingCall<EvaluateManyRequest, EvaluateManyResponse> call)
    {
        await call.RequestStream.WriteAsync(new EvaluateManyRequest(), Token);
        Assert.True(await call.ResponseStream.MoveNext(Token));
    }
}
