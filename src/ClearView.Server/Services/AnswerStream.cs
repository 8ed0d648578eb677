using ClearView.Server.Hosting;
using ClearView.Server.Receiving;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>One stream on which each message is answered by itself, in order. The next one is read while the one before is answered.</summary>
/// <param name="requests">The messages.</param>
/// <param name="responses">Takes the answers.</param>
/// <param name="openStreams">Tells when the server stops.</param>
/// <param name="size">How large the answers are.</param>
internal sealed class AnswerStream<TRequest, TResponse>(
    IAsyncStreamReader<TRequest> requests, IServerStreamWriter<TResponse> responses, OpenStreams openStreams, AnswerSize size)
{
    // Small answers that go out together.
    private const int MostUnflushed = 32;

    private static readonly WriteOptions Buffered = new(WriteFlags.BufferHint);

    private Task<bool> _next = Task.FromResult(false);
    private Task _writing = Task.CompletedTask;
    private int _unflushed;

    /// <summary>Answers every message until the client has closed its side.</summary>
    /// <param name="answer">Answers one message.</param>
    /// <param name="refuse">Answers one that could not be read.</param>
    /// <param name="cancellationToken">Fires when the client has gone.</param>
    /// <exception cref="RpcException">The server is stopping; everything that was worked out has been sent.</exception>
    public async Task RunAsync(
        Func<TRequest, ValueTask<TResponse>> answer, Func<FieldViolation, TResponse> refuse, CancellationToken cancellationToken)
    {
        try
        {
            _next = requests.NextAsync(openStreams.Stopping);
            while (await NextAnswerAsync(answer, refuse).ConfigureAwait(false) is (true, var response))
            {
                await SendAsync(response, cancellationToken).ConfigureAwait(false);
            }
        }
        finally
        {
            // Nobody waits for the read that is under way any more.
            _ = _next.ContinueWith(
                static read => read.Exception, CancellationToken.None, TaskContinuationOptions.OnlyOnFaulted, TaskScheduler.Default);
            await _writing.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }

        await _writing.ConfigureAwait(false);
    }

    private async ValueTask<(bool IsThere, TResponse Response)> NextAnswerAsync(
        Func<TRequest, ValueTask<TResponse>> answer, Func<FieldViolation, TResponse> refuse)
    {
        try
        {
            if (!await ArrivedAsync().ConfigureAwait(false))
            {
                return (false, default!);
            }
        }
        catch (MalformedMessageException malformed)
        {
            _next = requests.NextAsync(openStreams.Stopping);
            return (true, refuse(malformed.Violation));
        }

        var request = requests.Current;
        _next = requests.NextAsync(openStreams.Stopping);
        return (true, await answer(request).ConfigureAwait(false));
    }

    private async ValueTask<bool> ArrivedAsync()
    {
        // A client that sends without a pause has always sent more: what it sent last is its to repeat.
        if (openStreams.Stopping.IsCancellationRequested)
        {
            throw Stopped();
        }

        try
        {
            return await _next.ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (openStreams.Stopping.IsCancellationRequested)
        {
            throw Stopped();
        }
    }

    private static RpcException Stopped() => new(new Status(StatusCode.Unavailable, "The server is stopping; repeat what was not answered."));

    private async ValueTask SendAsync(TResponse response, CancellationToken cancellationToken)
    {
        if (size == AnswerSize.Large)
        {
            await _writing.ConfigureAwait(false);
            _writing = responses.WriteAsync(response, cancellationToken);
            return;
        }

        var mayWait = _unflushed < MostUnflushed && _next.IsCompleted;
        _unflushed = mayWait ? _unflushed + 1 : 0;
        responses.WriteOptions = mayWait ? Buffered : null;
        await responses.WriteAsync(response, cancellationToken).ConfigureAwait(false);
    }
}
