using ClearView.Server.Hosting;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>One stream on which each message is answered by itself, in order. The next one is read while the one before is answered.</summary>
/// <param name="requests">The messages.</param>
/// <param name="responses">Takes the answers.</param>
/// <param name="openStreams">Tells when the server stops.</param>
/// <param name="mostUnflushed">
/// Answers that may wait to go out together where the next message is there already; 0 where each is large enough to go by itself.
/// </param>
internal sealed class AnswerStream<TRequest, TResponse>(
    IAsyncStreamReader<TRequest> requests, IServerStreamWriter<TResponse> responses, OpenStreams openStreams, int mostUnflushed)
{
    private static readonly WriteOptions Buffered = new(WriteFlags.BufferHint);

    /// <summary>Answers every message until the client has closed its side.</summary>
    /// <param name="answer">Answers one message.</param>
    /// <param name="cancellationToken">Fires when the client has gone.</param>
    /// <exception cref="RpcException">The server is stopping.</exception>
    public async Task RunAsync(Func<TRequest, ValueTask<TResponse>> answer, CancellationToken cancellationToken)
    {
        var unflushed = 0;
        var next = requests.MoveNext(CancellationToken.None);
        try
        {
            while (await ArrivedAsync(next).ConfigureAwait(false))
            {
                var request = requests.Current;
                next = requests.MoveNext(CancellationToken.None);
                var response = await answer(request).ConfigureAwait(false);
                var mayWait = unflushed < mostUnflushed && next.IsCompleted;
                unflushed = mayWait ? unflushed + 1 : 0;
                responses.WriteOptions = mayWait ? Buffered : null;
                await responses.WriteAsync(response, cancellationToken).ConfigureAwait(false);
            }
        }
        finally
        {
            // A read that is under way is left behind rather than cancelled: cancelling it resets the stream, and the client would not
            // see the status.
            _ = next.ContinueWith(
                static read => read.Exception, CancellationToken.None, TaskContinuationOptions.OnlyOnFaulted, TaskScheduler.Default);
        }
    }

    private async ValueTask<bool> ArrivedAsync(Task<bool> next)
    {
        // What has arrived is answered, even where the server is stopping.
        if (next.IsCompleted)
        {
            return await next.ConfigureAwait(false);
        }

        try
        {
            return await next.WaitAsync(openStreams.Stopping).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (openStreams.Stopping.IsCancellationRequested)
        {
            throw new RpcException(new Status(StatusCode.Unavailable, "The server is stopping; repeat what was not answered."));
        }
    }
}
