using ClearView.Server.Security;
using ClearView.Server.Tests.Live;
using ClearView.V1;

using Google.Rpc;

using Grpc.AspNetCore.Server;
using Grpc.Core;

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
