using Grpc.Core;

namespace ClearView.Server.Receiving;

/// <summary>Reads streams that may have to end before their clients end them.</summary>
internal static class StreamReads
{
    /// <summary>Reads the next message.</summary>
    /// <param name="requests">The stream.</param>
    /// <param name="ending">
    /// Stops the wait. The read is left behind rather than cancelled: cancelling it resets the stream, and the client would not see the status.
    /// </param>
    /// <returns>Whether there is one.</returns>
    /// <exception cref="MalformedMessageException">It is none; the one behind it can be read.</exception>
    /// <exception cref="OperationCanceledException">The wait was stopped; the stream must not be read on.</exception>
    public static async Task<bool> NextAsync<T>(this IAsyncStreamReader<T> requests, CancellationToken ending)
    {
        var next = requests.MoveNext(CancellationToken.None);
        if (next.IsCompleted)
        {
            return await next.ConfigureAwait(false);
        }

        try
        {
            return await next.WaitAsync(ending).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (ending.IsCancellationRequested)
        {
            _ = next.ContinueWith(
                static read => read.Exception, CancellationToken.None, TaskContinuationOptions.OnlyOnFaulted, TaskScheduler.Default);
            throw;
        }
    }
}
