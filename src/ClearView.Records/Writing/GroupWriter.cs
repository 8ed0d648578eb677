using System.Threading.Channels;

using ClearView.Records.Model;

namespace ClearView.Records.Writing;

/// <summary>The one writer of a store: takes what waits, commits it together, then keeps every promise.</summary>
/// <remarks>
/// A lone write is committed at once. While a commit reaches the disk, writes gather and share the next one, so that
/// many posters cost few flushes.
/// </remarks>
/// <typeparam name="TWrite">A write of the engine.</typeparam>
internal sealed class GroupWriter<TWrite> : IAsyncDisposable
    where TWrite : IPromise
{
    private const int LongestQueue = 4096;
    private const int LargestBatch = 256;

    // Long enough for whoever watches to see it, short enough that a poster who waits for better news tries again soon.
    private static readonly TimeSpan FailureShows = TimeSpan.FromSeconds(5);

    private readonly IBatchCommitter<TWrite> _committer;
    private readonly TimeProvider _clock;
    private readonly Task _loop;
    private readonly Channel<TWrite> _queue = Channel.CreateBounded<TWrite>(
        new BoundedChannelOptions(LongestQueue) { SingleReader = true });

    private volatile Failure? _lastFailure;

    /// <param name="committer">Writes the batches; the writer disposes it.</param>
    /// <param name="clock">Measures how long ago a write failed.</param>
    public GroupWriter(IBatchCommitter<TWrite> committer, TimeProvider clock)
    {
        _committer = committer;
        _clock = clock;
        _loop = Task.Run(RunAsync);
    }

    /// <summary>What every call after disposal throws.</summary>
    public static ObjectDisposedException Closed() => new(nameof(IStore));

    /// <summary>Queues a write; the task completes when it is durable.</summary>
    /// <param name="write">The write.</param>
    /// <param name="promise">Its promise.</param>
    /// <param name="cancellationToken">Stops the wait, not the write.</param>
    public async Task<TOutcome> WriteAsync<TOutcome>(TWrite write, Task<TOutcome> promise, CancellationToken cancellationToken)
    {
        try
        {
            await _queue.Writer.WriteAsync(write, cancellationToken).ConfigureAwait(false);
        }
        catch (ChannelClosedException)
        {
            throw Closed();
        }

        return await promise.WaitAsync(cancellationToken).ConfigureAwait(false);
    }

    /// <summary>Makes sure that no write of the last seconds has failed without a later one that went well.</summary>
    /// <remarks>A full disk can still be read, so that only its writes tell.</remarks>
    /// <exception cref="StoreUnavailableException">One has.</exception>
    public void ThrowIfFailing()
    {
        if (_lastFailure is { } failure && _clock.GetElapsedTime(failure.Timestamp) < FailureShows)
        {
            throw new StoreUnavailableException(failure.Cause.Message, failure.Cause);
        }
    }

    /// <summary>Commits what is queued, then stops.</summary>
    public async ValueTask DisposeAsync()
    {
        _queue.Writer.TryComplete();
        await _loop.ConfigureAwait(false);
        await _committer.DisposeAsync().ConfigureAwait(false);
    }

    private async Task RunAsync()
    {
        List<TWrite> batch = [];
        while (await _queue.Reader.WaitToReadAsync().ConfigureAwait(false))
        {
            while (batch.Count < LargestBatch && _queue.Reader.TryRead(out var write))
            {
                if (!FailsWithItsLane(write))
                {
                    batch.Add(write);
                }
            }

            if (batch.Count > 0)
            {
                await CommitAsync(batch).ConfigureAwait(false);
                batch.Clear();
            }
        }
    }

    // Only this writer ends lanes, so that none ends between this look and the commit.
    private static bool FailsWithItsLane(TWrite write)
    {
        if (write.Lane?.Failure is not { } failure)
        {
            return false;
        }

        write.Fail(new StoreUnavailableException("A write before this one in its lane could not be stored: " + failure.Message, failure));
        return true;
    }

    private async Task CommitAsync(List<TWrite> batch)
    {
        try
        {
            await _committer.CommitAsync(batch).ConfigureAwait(false);
            _lastFailure = null;
            foreach (var write in batch)
            {
                write.Complete();
            }
        }
        catch (Exception error) when (batch.Count > 1 && _committer.IsOfOneWrite(error))
        {
            // One write that the schema refuses must not take its neighbours with it.
            foreach (var write in batch.Where(write => !FailsWithItsLane(write)))
            {
                await CommitAsync([write]).ConfigureAwait(false);
            }
        }
#pragma warning disable CA1031 // Whatever went wrong belongs to the posters; the writer lives on for the next batch.
        catch (Exception error)
#pragma warning restore CA1031
        {
            var failure = _committer.IsOfOneWrite(error)
                ? (Exception)new ArgumentException("The store refuses what was handed in: " + error.Message, error)
                : new StoreUnavailableException("Nothing could be stored: " + error.Message, error);
            if (failure is StoreUnavailableException)
            {
                _lastFailure = new Failure(failure, _clock.GetTimestamp());
            }

            foreach (var write in batch)
            {
                write.Lane?.End(failure);
                write.Fail(failure);
            }
        }
    }

    private sealed record Failure(Exception Cause, long Timestamp);
}
