using System.Collections.Concurrent;
using System.Runtime.CompilerServices;
using System.Threading.Channels;

using Grpc.Core;

namespace ClearView.Client.Calls;

/// <summary>
/// Sends many requests over one stream at a time and takes an answer to each, in their order. When the server becomes unavailable, a
/// new stream takes up what was not answered, for calls whose contract allows it.
/// </summary>
/// <typeparam name="TRequest">A request.</typeparam>
/// <typeparam name="TResponse">Its answer.</typeparam>
/// <param name="begin">Begins a stream.</param>
/// <param name="belongs">Whether an answer is one to a request.</param>
/// <param name="servers">The servers' addresses, for messages.</param>
/// <param name="options">Patience.</param>
/// <param name="mostUnanswered">Requests that are sent before they are answered: enough to keep the line busy; what is unanswered is kept for a repeat.</param>
internal sealed class ResumingStream<TRequest, TResponse>(
    Func<CallOptions, AsyncDuplexStreamingCall<TRequest, TResponse>> begin,
    Func<TRequest, TResponse, bool> belongs,
    string servers,
    ClearViewClientOptions options,
    int mostUnanswered) : IDisposable
    where TRequest : class
    where TResponse : class
{
    private readonly ConcurrentQueue<TRequest> _unanswered = new();
    private readonly SemaphoreSlim _room = new(mostUnanswered);
    private readonly Channel<TRequest> _input = Channel.CreateBounded<TRequest>(1);

    /// <summary>Sends every request and gives every answer, in the order of the requests.</summary>
    /// <exception cref="ClearViewCallException">The stream failed and is not to be, or could not be, taken up again.</exception>
    public async IAsyncEnumerable<TResponse> RunAsync(
        IAsyncEnumerable<TRequest> requests, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        using var whole = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
        var pump = PumpAsync(requests, whole.Token);
        try
        {
            for (var failed = 0; ;)
            {
                using var call = begin(new CallOptions(cancellationToken: whole.Token));
                using var sending = CancellationTokenSource.CreateLinkedTokenSource(whole.Token);
                var sender = SendAsync(call.RequestStream, sending.Token);
                RpcException? fault = null;
                while (true)
                {
                    try
                    {
                        if (!await NextAsync(call, pump).ConfigureAwait(false))
                        {
                            break;
                        }
                    }
                    catch (RpcException e)
                    {
                        fault = e;
                        break;
                    }
                    yield return Match(call.ResponseStream.Current);
                    failed = 0;
                }
                await sending.CancelAsync().ConfigureAwait(false);
                await sender.ConfigureAwait(false);
                cancellationToken.ThrowIfCancellationRequested();
                if (fault is null)
                {
                    if (_unanswered.IsEmpty && _input.Reader.Completion.IsCompleted)
                    {
                        break;
                    }
                    fault = new RpcException(new Status(StatusCode.Unavailable, "the server ended the stream early"));
                }
                failed++;
                if (fault.StatusCode != StatusCode.Unavailable || failed >= options.MaxAttempts)
                {
                    throw CallFault.From(fault, servers);
                }
                await Task.Delay(RetryRules.PauseAfter(options, failed), cancellationToken).ConfigureAwait(false);
            }
        }
        finally
        {
            await whole.CancelAsync().ConfigureAwait(false);
            await ((Task)pump).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
        // A fault of the caller's own sequence is the caller's to see.
        await pump.ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public void Dispose() => _room.Dispose();

    private async Task PumpAsync(IAsyncEnumerable<TRequest> requests, CancellationToken cancellationToken)
    {
        try
        {
            await foreach (var request in requests.WithCancellation(cancellationToken).ConfigureAwait(false))
            {
                await _input.Writer.WriteAsync(request, cancellationToken).ConfigureAwait(false);
            }
        }
        finally
        {
            _input.Writer.Complete();
        }
    }

    // Sends what an earlier stream left unanswered, then what comes. Ends quietly: the reading side tells what went wrong.
    private async Task SendAsync(IClientStreamWriter<TRequest> stream, CancellationToken cancellationToken)
    {
        try
        {
            foreach (var request in _unanswered.ToArray())
            {
                await stream.WriteAsync(request, cancellationToken).ConfigureAwait(false);
            }
            while (await _input.Reader.WaitToReadAsync(cancellationToken).ConfigureAwait(false))
            {
                await _room.WaitAsync(cancellationToken).ConfigureAwait(false);
                if (!_input.Reader.TryRead(out var request))
                {
                    _room.Release();
                    continue;
                }
                _unanswered.Enqueue(request);
                await stream.WriteAsync(request, cancellationToken).ConfigureAwait(false);
            }
            await stream.CompleteAsync().ConfigureAwait(false);
        }
        catch (Exception e) when (e is RpcException or OperationCanceledException or InvalidOperationException or IOException)
        {
        }
    }

    // Waits for an answer, but not beyond the deadline while one is owed.
    private async Task<bool> NextAsync(AsyncDuplexStreamingCall<TRequest, TResponse> call, Task pump)
    {
        var next = call.ResponseStream.MoveNext(CancellationToken.None);
        while (true)
        {
            var owed = !_unanswered.IsEmpty || pump.IsCompleted;
            try
            {
                return await next.WaitAsync(options.CallDeadline).ConfigureAwait(false);
            }
            catch (TimeoutException)
            {
                if (owed)
                {
                    throw new RpcException(new Status(StatusCode.DeadlineExceeded, ""));
                }
            }
        }
    }

    private TResponse Match(TResponse response)
    {
        if (!_unanswered.TryDequeue(out var request) || !belongs(request, response))
        {
            throw CallFault.From(new RpcException(new Status(StatusCode.Internal, "an answer came that belongs to no request")), servers);
        }
        _room.Release();
        return response;
    }
}
