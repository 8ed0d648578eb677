using System.Collections.Concurrent;
using System.Threading.Channels;

using ClearView.Records.Model;

namespace ClearView.Server.Tests;

/// <summary>A store whose disk is as slow as a test wants: what is handed in becomes durable, or fails, when the test says so.</summary>
internal sealed class GatedStore : IReadingStore
{
    private readonly ConcurrentQueue<(ReadingEntry Entry, TaskCompletionSource<AppendOutcome> Promise)> _waiting = new();
    private readonly Channel<int> _handedIn = Channel.CreateUnbounded<int>();
    private int _count;

    /// <summary>Readings that were handed in.</summary>
    public int HandedIn => Volatile.Read(ref _count);

    public Task<AppendOutcome> AppendAsync(ReadingEntry entry, CancellationToken cancellationToken)
    {
        var promise = new TaskCompletionSource<AppendOutcome>(TaskCreationOptions.RunContinuationsAsynchronously);
        _waiting.Enqueue((entry, promise));
        _handedIn.Writer.TryWrite(Interlocked.Increment(ref _count));
        return promise.Task;
    }

    public Task<StoredReading?> FindAsync(Guid id, CancellationToken cancellationToken) => Task.FromResult<StoredReading?>(null);

    public Task<ReadingPage> ListAsync(ReadingQuery query, CancellationToken cancellationToken) => Task.FromResult(new ReadingPage([], HasMore: false));

    public Task CheckAsync(CancellationToken cancellationToken) => Task.CompletedTask;

    /// <summary>Waits until a number of readings more has been handed in.</summary>
    public async Task WaitForAsync(int count, CancellationToken cancellationToken)
    {
        for (var i = 0; i < count; i++)
        {
            await _handedIn.Reader.ReadAsync(cancellationToken);
        }
    }

    /// <summary>Makes the oldest readings that wait durable.</summary>
    public void Store(int count)
    {
        for (var i = 0; i < count; i++)
        {
            Assert.True(_waiting.TryDequeue(out var oldest));
            oldest.Promise.SetResult(new AppendOutcome(new StoredReading(oldest.Entry, DateTimeOffset.UnixEpoch, i + 1), alreadyStored: false));
        }
    }

    /// <summary>Fails the oldest reading that waits.</summary>
    public void Fail()
    {
        Assert.True(_waiting.TryDequeue(out var oldest));
        oldest.Promise.SetException(new StoreUnavailableException("disk full"));
    }
}
