using ClearView.Records.Retention;

namespace ClearView.Records.Model;

/// <summary>Keeps readings for good. Nothing is ever changed or removed.</summary>
/// <remarks>Safe for concurrent use. After disposal every call throws <see cref="ObjectDisposedException"/>.</remarks>
public interface IReadingStore
{
    /// <summary>Stores a reading, unless its identifier is taken.</summary>
    /// <param name="entry">The reading.</param>
    /// <param name="cancellationToken">Stops the wait; the reading may be stored nevertheless.</param>
    /// <returns>The reading as it is stored. It is on durable storage when the task completes.</returns>
    /// <exception cref="ArgumentException">A value of the entry is not finite, or a text is null.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot take the reading now; trying again is safe.</exception>
    Task<AppendOutcome> AppendAsync(ReadingEntry entry, CancellationToken cancellationToken);

    /// <summary>Stores a reading unless its identifier is taken, and not when a reading handed in before it in the lane could not be stored.</summary>
    /// <param name="entry">The reading.</param>
    /// <param name="lane">The lane; <see langword="null"/> where order does not matter.</param>
    /// <param name="cancellationToken">Stops the wait; the reading may be stored nevertheless.</param>
    /// <returns>The reading as it is stored. It is on durable storage when the task completes.</returns>
    /// <exception cref="ArgumentException">A value of the entry is not finite, or a text is null.</exception>
    /// <exception cref="StoreUnavailableException">
    /// The store cannot take the reading now, or could not take one before it in the lane; trying again, in their order, is safe.
    /// </exception>
    /// <remarks>A store that takes each reading only when the one before is done with needs to know nothing of lanes, and has this for free.</remarks>
    Task<AppendOutcome> AppendAsync(ReadingEntry entry, WriteLane? lane, CancellationToken cancellationToken) =>
        AppendAsync(entry, cancellationToken);

    /// <summary>Finds a reading by its identifier.</summary>
    /// <param name="id">The identifier.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>The reading, or <see langword="null"/>.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<StoredReading?> FindAsync(Guid id, CancellationToken cancellationToken);

    /// <summary>Tells with what month a reading was retired, so that <see cref="FindAsync"/> no longer finds it.</summary>
    /// <param name="id">The identifier.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>The month; <see langword="null"/> where the identifier is of no retired reading.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    /// <remarks>A store that retires nothing has this for free.</remarks>
    Task<RetiredMonth?> FindRetiredAsync(Guid id, CancellationToken cancellationToken) => Task.FromResult<RetiredMonth?>(null);

    /// <summary>Lists readings, page by page.</summary>
    /// <param name="query">Which readings.</param>
    /// <param name="cancellationToken">Stops the listing.</param>
    /// <returns>A page. To go on, ask with <see cref="ReadingQuery.After"/> set to the last reading's place.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The page size or byte limit is below 1.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<ReadingPage> ListAsync(ReadingQuery query, CancellationToken cancellationToken);

    /// <summary>Makes sure that the store can be read and still takes readings.</summary>
    /// <param name="cancellationToken">Stops the check.</param>
    /// <returns>A task that completes when the store is in order.</returns>
    /// <exception cref="StoreUnavailableException">It is not.</exception>
    Task CheckAsync(CancellationToken cancellationToken);
}
