namespace ClearView.Server.Posting;

/// <summary>Room in bytes for the posts of all callers that are taken and not yet recorded. Whoever waits longest enters first.</summary>
/// <remarks>Safe for concurrent use.</remarks>
/// <param name="mostBytes">Bytes on the wire that find room together; a larger post takes all of it.</param>
internal sealed class RecordingRoom(long mostBytes)
{
    private readonly Lock _lock = new();
    private readonly LinkedList<Waiter> _line = new();
    private long _takenBytes;
    private long _waitingBytes;

    /// <summary>Bytes that are in the room.</summary>
    public long TakenBytes
    {
        get
        {
            lock (_lock)
            {
                return _takenBytes;
            }
        }
    }

    /// <summary>Bytes that wait for room.</summary>
    public long WaitingBytes
    {
        get
        {
            lock (_lock)
            {
                return _waitingBytes;
            }
        }
    }

    /// <summary>Waits until there is room for a post, and takes it. Disposing gives it back.</summary>
    /// <param name="bytes">Its bytes on the wire.</param>
    /// <param name="cancellationToken">Stops the wait.</param>
    public async ValueTask<IDisposable> EnterAsync(long bytes, CancellationToken cancellationToken) =>
        (await EnterAsync(bytes, mostWaitingBytes: long.MaxValue, cancellationToken).ConfigureAwait(false))!;

    /// <summary>Waits until there is room for a post, and takes it, unless as much waits already as the room holds.</summary>
    /// <param name="bytes">Its bytes on the wire.</param>
    /// <param name="cancellationToken">Stops the wait.</param>
    /// <returns>The room, which disposing gives back; <see langword="null"/> where too much waits.</returns>
    public ValueTask<IDisposable?> EnterOrTurnAwayAsync(long bytes, CancellationToken cancellationToken) =>
        EnterAsync(bytes, mostWaitingBytes: mostBytes, cancellationToken);

    private async ValueTask<IDisposable?> EnterAsync(long bytes, long mostWaitingBytes, CancellationToken cancellationToken)
    {
        cancellationToken.ThrowIfCancellationRequested();
        var place = new Place(this, Math.Min(bytes, mostBytes));
        LinkedListNode<Waiter> waiter;
        lock (_lock)
        {
            if (_line.Count == 0 && _takenBytes + place.Bytes <= mostBytes)
            {
                _takenBytes += place.Bytes;
                return place;
            }

            if (place.Bytes > mostWaitingBytes - _waitingBytes)
            {
                return null;
            }

            _waitingBytes += place.Bytes;
            waiter = _line.AddLast(new Waiter(place));
        }

        try
        {
            await waiter.Value.Entered.Task.WaitAsync(cancellationToken).ConfigureAwait(false);
            return place;
        }
        catch (OperationCanceledException)
        {
            GiveUp(waiter);
            throw;
        }
    }

    private void GiveUp(LinkedListNode<Waiter> waiter)
    {
        lock (_lock)
        {
            if (waiter.List is null)
            {
                _takenBytes -= waiter.Value.Place.Bytes;
            }
            else
            {
                _line.Remove(waiter);
                _waitingBytes -= waiter.Value.Place.Bytes;
            }

            // Smaller posts may have waited behind this one.
            LetIn();
        }
    }

    private void Leave(long bytes)
    {
        lock (_lock)
        {
            _takenBytes -= bytes;
            LetIn();
        }
    }

    private void LetIn()
    {
        while (_line.First is { } first && _takenBytes + first.Value.Place.Bytes <= mostBytes)
        {
            _line.RemoveFirst();
            _waitingBytes -= first.Value.Place.Bytes;
            _takenBytes += first.Value.Place.Bytes;
            first.Value.Entered.SetResult();
        }
    }

    private sealed record Waiter(Place Place)
    {
        public TaskCompletionSource Entered { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }

    private sealed class Place(RecordingRoom room, long bytes) : IDisposable
    {
        private int _isLeft;

        public long Bytes => bytes;

        public void Dispose()
        {
            if (Interlocked.Exchange(ref _isLeft, 1) == 0)
            {
                room.Leave(bytes);
            }
        }
    }
}
