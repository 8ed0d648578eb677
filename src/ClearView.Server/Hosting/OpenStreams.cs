using Grpc.Core;

namespace ClearView.Server.Hosting;

/// <summary>The streams that are open, so that they can be ended before the connections close under them.</summary>
/// <remarks>
/// A connection that shuts down may close before the status of a stream that ends just then is on it; the client would
/// see a broken connection instead of UNAVAILABLE. Hence streams end first, while connections are still in full use.
/// </remarks>
internal sealed class OpenStreams : IDisposable
{
    // A status that has been handed to its connection needs a moment until it is on the wire, and nothing tells when it is.
    private static readonly TimeSpan TimeToSend = TimeSpan.FromMilliseconds(300);

    private readonly CancellationTokenSource _stopping = new();
    private readonly TaskCompletionSource _allEnded = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly Lock _lock = new();
    private int _count;

    /// <summary>Fires when every stream is to end.</summary>
    public CancellationToken Stopping => _stopping.Token;

    /// <summary>Counts a stream until its response, with its status, has been written.</summary>
    /// <param name="response">The response of the stream.</param>
    public void Add(HttpResponse response)
    {
        lock (_lock)
        {
            _count++;
        }

        response.OnCompleted(() =>
        {
            lock (_lock)
            {
                _count--;
                CompleteIfEnded();
            }

            return Task.CompletedTask;
        });
    }

    /// <summary>Sends an answer of a counted stream, unless the server is stopping.</summary>
    /// <exception cref="RpcException">The server is stopping.</exception>
    public Task WriteAsync<T>(IServerStreamWriter<T> stream, T response, ServerCallContext context) => Stopping.IsCancellationRequested
        ? throw new RpcException(new Status(StatusCode.Unavailable, "The server is stopping; trying again is safe."))
        : stream.WriteAsync(response, context.CancellationToken);

    /// <summary>Tells every stream to end, and waits until they have.</summary>
    /// <param name="timeout">How long to wait at most.</param>
    /// <param name="cancellationToken">Stops the wait.</param>
    /// <returns>A task that completes when connections may close.</returns>
    public async Task EndAsync(TimeSpan timeout, CancellationToken cancellationToken)
    {
        bool anyOpen;
        lock (_lock)
        {
            anyOpen = _count > 0;
        }

        await _stopping.CancelAsync().ConfigureAwait(false);
        if (!anyOpen)
        {
            return;
        }

        lock (_lock)
        {
            CompleteIfEnded();
        }

        // What does not end in time is cut off with its connection.
        await Task.WhenAny(_allEnded.Task, Task.Delay(timeout, cancellationToken)).ConfigureAwait(false);
        await Task.Delay(TimeToSend, CancellationToken.None).ConfigureAwait(false);
    }

    public void Dispose() => _stopping.Dispose();

    private void CompleteIfEnded()
    {
        if (_count == 0 && _stopping.IsCancellationRequested)
        {
            _allEnded.TrySetResult();
        }
    }
}
