using System.Net;
using System.Net.Http.Headers;

using ClearView.Server.Configuration;
using ClearView.Server.Security;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Security;

/// <summary>What a caller may send before anybody knows who it is.</summary>
public sealed class CallerGateTests
{
    // Of the protocol of gRPC over HTTP/2: a status in the headers of the response.
    private const string StatusHeader = "grpc-status";

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("/clearview.v1.ReadingService/PostReading")]
    [InlineData("/clearview.v1.ReadingService/PostReadings")]
    [InlineData("/clearview.v1.EvaluationService/Evaluate")]
    public async Task Caller_WithoutAKey_IsRefusedBeforeItsMessageIsRead(string rpc)
    {
        await using var server = await GuardedServer.StartAsync();
        using var client = new HttpClient();
        using var body = new EndlessContent();
        using var request = Post(server, rpc, body);

        using var response = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, Token);

        Assert.Equal(((int)StatusCode.Unauthenticated).ToString(System.Globalization.CultureInfo.InvariantCulture), Assert.Single(response.Headers.GetValues(StatusHeader)));
        Assert.Contains("No%20key", Assert.Single(response.Headers.GetValues("grpc-message")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Caller_OfHealth_MaySendALittleOnly()
    {
        await using var server = await GuardedServer.StartAsync();
        var health = new Grpc.Health.V1.Health.HealthClient(server.Server.Channel);
        await health.CheckAsync(new Grpc.Health.V1.HealthCheckRequest(), cancellationToken: Token);

        await Assert.ThrowsAsync<RpcException>(async () =>
            await health.CheckAsync(new Grpc.Health.V1.HealthCheckRequest { Service = new string('x', CallerGate.MaxOpenBytes) }, cancellationToken: Token));
        var shorter = await Assert.ThrowsAsync<RpcException>(async () =>
            await health.CheckAsync(new Grpc.Health.V1.HealthCheckRequest { Service = new string('x', CallerGate.MaxOpenBytes / 2) }, cancellationToken: Token));
        Assert.Equal(StatusCode.NotFound, shorter.StatusCode);
    }

    [Theory]
    [InlineData(AccessMode.Open)]
    [InlineData(AccessMode.Keys)]
    public async Task Message_ThatIsCompressed_IsAnsweredUnimplemented(object access)
    {
        await using var server = await GuardedServer.StartAsync();
        await using var open = await TestServer.StartAsync();
        var isOpen = (AccessMode)access == AccessMode.Open;
        var headers = isOpen ? [] : GuardedServer.With(server.Administrator);
        headers.Add("grpc-internal-encoding-request", "gzip");
        var evaluations = isOpen ? open.Evaluations : server.Server.Evaluations;

        var error = await Rpc.FailsAsync(StatusCode.Unimplemented, evaluations.EvaluateAsync(new EvaluateRequest { MethodName = new MethodName { Name = "film" } }, headers, cancellationToken: Token));

        Assert.Contains("gzip", error.Status.Detail, StringComparison.Ordinal);
    }

    private static HttpRequestMessage Post(GuardedServer server, string rpc, HttpContent body)
    {
        body.Headers.ContentType = new MediaTypeHeaderValue("application/grpc");
        return new HttpRequestMessage(HttpMethod.Post, new Uri($"http://{server.Server.Address.Authority}{rpc}"))
        {
            Version = HttpVersion.Version20,
            VersionPolicy = HttpVersionPolicy.RequestVersionExact,
            Content = body,
        };
    }

    /// <summary>The frame of a message of a megabyte, of which nothing comes until the call is given up.</summary>
    private sealed class EndlessContent : HttpContent
    {
        protected override Task SerializeToStreamAsync(Stream stream, TransportContext? context) => SerializeToStreamAsync(stream, context, Token);

        protected override async Task SerializeToStreamAsync(Stream stream, TransportContext? context, CancellationToken cancellationToken)
        {
            await stream.WriteAsync(new byte[] { 0, 0, 16, 0, 0 }, cancellationToken);
            await stream.FlushAsync(cancellationToken);
            await Task.Delay(Timeout.InfiniteTimeSpan, cancellationToken);
        }

        protected override bool TryComputeLength(out long length)
        {
            length = 0;
            return false;
        }
    }
}
