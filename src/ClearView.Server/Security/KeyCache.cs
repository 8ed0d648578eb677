using ClearView.Records.Model;

namespace ClearView.Server.Security;

/// <summary>The keys in memory, read again from the store when they are a little old.</summary>
/// <remarks>
/// A key that another server revoked is refused here at most <see cref="FreshFor"/> later, while the store can be read. While it
/// cannot, keys go on to open for <see cref="UsableFor"/>; then callers are told that the server is unavailable.
/// </remarks>
internal sealed class KeyCache(KeyBook book, TimeProvider clock) : IDisposable
{
    /// <summary>How long keys are taken as they were read.</summary>
    public static readonly TimeSpan FreshFor = TimeSpan.FromSeconds(2);

    /// <summary>How long keys may serve when the store cannot be read.</summary>
    public static readonly TimeSpan UsableFor = TimeSpan.FromSeconds(30);

    private readonly SemaphoreSlim _reading = new(1);
    private volatile Snapshot? _snapshot;
    private long _changes;

    /// <summary>The keys.</summary>
    /// <exception cref="StoreUnavailableException">They were never read, or too long ago, and cannot be read now.</exception>
    public ValueTask<KeyRing> GetAsync(CancellationToken cancellationToken) =>
        Kept(FreshFor) is { } ring ? ValueTask.FromResult(ring) : new(ReadAsync(cancellationToken));

    /// <summary>Has the keys read again, because they have just changed. A read that began before keeps nothing.</summary>
    public void Forget() => Interlocked.Increment(ref _changes);

    public void Dispose() => _reading.Dispose();

    private async Task<KeyRing> ReadAsync(CancellationToken cancellationToken)
    {
        // One caller reads. The others go on with what there is, and wait only where that is nothing or too old.
        var usable = Kept(UsableFor);
        if (!await _reading.WaitAsync(usable is null ? Timeout.InfiniteTimeSpan : TimeSpan.Zero, cancellationToken).ConfigureAwait(false))
        {
            return usable!;
        }

        try
        {
            if (Kept(FreshFor) is { } fresh)
            {
                return fresh;
            }

            // Aged from before the read: what is revoked during it counts as not seen.
            var began = clock.GetTimestamp();
            var changes = Interlocked.Read(ref _changes);
            var ring = await book.ReadAsync(cancellationToken).ConfigureAwait(false);
            _snapshot = new Snapshot(ring, began, changes);
            return ring;
        }
        catch (StoreUnavailableException) when (Kept(UsableFor) is not null)
        {
            return Kept(UsableFor)!;
        }
        finally
        {
            _reading.Release();
        }
    }

    private KeyRing? Kept(TimeSpan longest) =>
        _snapshot is { } snapshot && snapshot.Changes == Interlocked.Read(ref _changes) && clock.GetElapsedTime(snapshot.ReadAt) < longest
            ? snapshot.Ring
            : null;

    private sealed record Snapshot(KeyRing Ring, long ReadAt, long Changes);
}
