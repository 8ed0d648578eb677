using ClearView.Records.Audit;
using ClearView.Server.Security;
using ClearView.Server.Tests.Security;
using ClearView.V1;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;

namespace ClearView.Server.Tests.Services;

/// <summary>Verifications whose result nobody takes any more.</summary>
public sealed class AbandonedVerificationTests
{
    private readonly GatedAudit _audit = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Verify_CallThatIsCancelled_StopsTheWork()
    {
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<IAuditStore>(_audit));
        using var call = server.Audit.VerifyChain(new VerifyChainRequest(), cancellationToken: Token);
        await _audit.ReportAsync(1);
        Assert.True(await call.ResponseStream.MoveNext(Token));

        call.Dispose();

        await _audit.Stopped.WaitAsync(Token);
    }

    // The stream ends by itself: the next answer is refused to a key that was revoked meanwhile, and nobody cancels.
    [Fact]
    public async Task Verify_StreamThatEndsBeforeIt_StopsTheWork()
    {
        await using var server = await GuardedServer.StartAsync(replaceServices: services => services.AddSingleton<IAuditStore>(_audit));
        var lab = (await server.CreateAsync("lab", Role.Lab)).Secret;
        using var call = server.Server.Audit.VerifyChain(new VerifyChainRequest(), GuardedServer.With(lab), cancellationToken: Token);
        await _audit.ReportAsync(1);
        Assert.True(await call.ResponseStream.MoveNext(Token));
        await server.Revoke("lab");
        server.Clock.Advance(KeyCache.FreshFor);

        await _audit.ReportAsync(2);

        await _audit.Stopped.WaitAsync(Token);
        var error = await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(Token));
        Assert.Equal(StatusCode.Unauthenticated, error.StatusCode);
    }

    [Fact]
    public async Task Verify_ServerThatStops_StopsTheWorkAndSaysSo()
    {
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<IAuditStore>(_audit));
        using var call = server.Audit.VerifyChain(new VerifyChainRequest(), cancellationToken: Token);
        await _audit.ReportAsync(1);
        Assert.True(await call.ResponseStream.MoveNext(Token));

        await server.StopAsync();

        await _audit.Stopped.WaitAsync(Token);
        Assert.Equal(StatusCode.Unavailable, (await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(Token))).StatusCode);
    }
}
