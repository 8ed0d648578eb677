using Grpc.Core;

namespace ClearView.Server.Tests.Services;

/// <summary>How a stream whose messages are answered one by one ends before its client has closed its side.</summary>
internal static class DuplexEnds
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    /// <summary>The client cancels after an answer: it is told so.</summary>
    /// <param name="open">Opens the stream.</param>
    /// <param name="request">A message.</param>
    public static async Task CancelAsync<TRequest, TResponse>(
        Func<CancellationToken, AsyncDuplexStreamingCall<TRequest, TResponse>> open, TRequest request)
    {
        using var cancel = new CancellationTokenSource();
        using var call = open(cancel.Token);
        await call.RequestStream.WriteAsync(request, Token);
        Assert.True(await call.ResponseStream.MoveNext(Token));
        await cancel.CancelAsync();

        var error = await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(Token));

        Assert.Equal(StatusCode.Cancelled, error.StatusCode);
    }

    /// <summary>The server stops while the client sends without a pause: the stream ends, and the client is told to repeat.</summary>
    /// <param name="server">The server, which is stopped.</param>
    /// <param name="call">The stream.</param>
    /// <param name="request">A message.</param>
    public static async Task StopWhileSendingAsync<TRequest, TResponse>(
        TestServer server, AsyncDuplexStreamingCall<TRequest, TResponse> call, TRequest request)
    {
        using var ended = new CancellationTokenSource();
        var sending = Task.Run(
            async () =>
            {
                while (!ended.IsCancellationRequested)
                {
                    await call.RequestStream.WriteAsync(request, ended.Token);
                }
            },
            Token);
        Assert.True(await call.ResponseStream.MoveNext(Token));

        var stopping = server.StopAsync();
        var error = await Assert.ThrowsAsync<RpcException>(async () =>
        {
            while (await call.ResponseStream.MoveNext(Token))
            {
            }
        });
        await stopping.WaitAsync(TimeSpan.FromSeconds(15), Token);
        await ended.CancelAsync();
        await Record.ExceptionAsync(() => sending);

        Assert.Equal(StatusCode.Unavailable, error.StatusCode);
    }

    /// <summary>The server stops after an answer: the client is told to repeat what was not answered.</summary>
    /// <param name="server">The server, which is stopped.</param>
    /// <param name="call">The stream.</param>
    /// <param name="request">A message.</param>
    public static async Task StopAsync<TRequest, TResponse>(TestServer server, AsyncDuplexStreamingCall<TRequest, TResponse> call, TRequest request)
    {
        await call.RequestStream.WriteAsync(request, Token);
        Assert.True(await call.ResponseStream.MoveNext(Token));

        var stopping = server.StopAsync();
        var error = await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(Token));
        await stopping.WaitAsync(TimeSpan.FromSeconds(15), Token);

        Assert.Equal(StatusCode.Unavailable, error.StatusCode);
        Assert.Contains("stopping", error.Status.Detail, StringComparison.Ordinal);
    }
}
