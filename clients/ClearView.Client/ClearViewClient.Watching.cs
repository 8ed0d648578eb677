using System.Runtime.CompilerServices;

using ClearView.Client.Calls;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client;

/// <content>Watching readings as they are stored.</content>
public sealed partial class ClearViewClient
{
    /// <summary>Watches readings as they are stored, until it is given up.</summary>
    /// <remarks>
    /// Where the connection is lost, the server stops, or nothing comes for <see cref="ClearViewClientOptions.WatchSilence"/>, the
    /// watch goes on behind the last answer, at whichever server can be reached: no reading is missing and none comes twice. So it does
    /// where a server takes no more now, after the pause that it names. A server that fails (INTERNAL) is asked again
    /// <see cref="ClearViewClientOptions.MaxAttempts"/> times in all at one place, and then the watch ends.
    /// </remarks>
    /// <param name="request">What to watch, and where to begin.</param>
    /// <param name="onInterrupted">Told of each interruption that the watch is about to get over; <see langword="null"/> tells nobody.</param>
    /// <param name="cancellationToken">Gives the watch up.</param>
    /// <returns>Readings with the positions behind them. An answer without a reading only moves the position on.</returns>
    /// <exception cref="ClearViewCallException">The server refused or failed, or none could be reached before the first answer came.</exception>
    public async IAsyncEnumerable<WatchReadingsResponse> WatchAsync(
        WatchReadingsRequest request,
        Action<ClearViewCallException>? onInterrupted = null,
        [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        request = request.Clone();
        var hasBegun = false;
        var serverFaults = 0;
        for (var failures = 0; ;)
        {
            using var ending = CancellationTokenSource.CreateLinkedTokenSource(cancellationToken);
            using var call = _readings.WatchReadings(request, new CallOptions(cancellationToken: ending.Token));
            var (answer, fault) = await NextOfWatchAsync(call.ResponseStream, cancellationToken).ConfigureAwait(false);
            for (var answers = 1; answer is not null; answers++)
            {
                hasBegun = true;
                failures = 0;

                // A first answer comes at once, also from a server that fails over the next reading each time; a further one is a sign
                // that it does not.
                serverFaults = answers == 1 && answer.Reading is null && answer.Position == request.Position ? serverFaults : 0;
                request.Position = answer.Position;
                request.FromBeginning = false;
                yield return answer;
                (answer, fault) = await NextOfWatchAsync(call.ResponseStream, cancellationToken).ConfigureAwait(false);
            }

            // Ends a call whose connection is only half there.
            await ending.CancelAsync().ConfigureAwait(false);
            failures++;
            serverFaults = fault!.Status == StatusCode.Internal ? serverFaults + 1 : serverFaults;
            if (!IsPassing(fault) || serverFaults >= _options.MaxAttempts || (!hasBegun && failures >= _options.MaxAttempts))
            {
                throw fault;
            }

            if (hasBegun && failures == 1)
            {
                onInterrupted?.Invoke(fault);
            }

            await Task.Delay(RetryRules.PauseAfter(_options, failures, fault), cancellationToken).ConfigureAwait(false);
        }
    }

    // A connection that breaks while answers come shows as one of several codes.
    private static bool IsPassing(ClearViewCallException fault) =>
        fault.Status is StatusCode.Unavailable or StatusCode.DeadlineExceeded or StatusCode.Cancelled or StatusCode.Internal or StatusCode.ResourceExhausted;

    private async Task<(WatchReadingsResponse? Answer, ClearViewCallException? Fault)> NextOfWatchAsync(
        IAsyncStreamReader<WatchReadingsResponse> answers, CancellationToken cancellationToken)
    {
        try
        {
            var next = answers.MoveNext(CancellationToken.None);
            return await next.WaitAsync(_options.WatchSilence, cancellationToken).ConfigureAwait(false)
                ? (answers.Current, null)
                : (null, CallFault.From(new RpcException(new Status(StatusCode.Unavailable, "the watch ended")), _servers));
        }
        catch (TimeoutException)
        {
            return (null, CallFault.From(new RpcException(new Status(StatusCode.DeadlineExceeded, "")), _servers));
        }
        catch (RpcException e)
        {
            cancellationToken.ThrowIfCancellationRequested();
            return (null, CallFault.From(e, _servers));
        }
    }
}
