using System.Collections.Immutable;

namespace ClearView.Records.Model;

/// <summary>Readings in the order of recording, for those who follow them, and the signals that each raised.</summary>
/// <remarks>
/// <para>
/// The order is that of <see cref="StoredReading.Sequence"/>. A reading is listed once nothing can come before it any more: every
/// transaction that took a lower sequence has ended, on whichever server, and the signals of readings up to it are stored. Who
/// goes on behind <see cref="RecordedPage.Through"/> therefore meets each reading exactly once.
/// </para>
/// <para>
/// A server that dies between a reading and its signals, or loses its connection to the database there, no longer holds the others
/// up: the reading is then listed without signals, until whoever starts next has settled it (<see cref="ListLeftAsync"/>).
/// </para>
/// <para>Safe for concurrent use. After disposal every call throws <see cref="ObjectDisposedException"/>.</para>
/// </remarks>
public interface IRecordedStore
{
    /// <summary>Whether other servers may store readings too.</summary>
    bool IsShared { get; }

    /// <summary>
    /// Completes when there may be something new. Take it before asking for a page, and wait for it after an empty one. What is
    /// stored through other servers is told too, but may be missed while a connection is lost, so that the wait needs an end of its own.
    /// </summary>
    Task Changed { get; }

    /// <summary>The last place that can be listed now, 0 where nothing can.</summary>
    /// <param name="cancellationToken">Stops the look.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<long> LastAsync(CancellationToken cancellationToken);

    /// <summary>Lists readings in the order of recording, page by page.</summary>
    /// <param name="query">Which readings.</param>
    /// <param name="cancellationToken">Stops the listing.</param>
    /// <returns>A page. To go on, ask with <see cref="RecordedQuery.After"/> set to <see cref="RecordedPage.Through"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The page size or byte limit is below 1.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<RecordedPage> ListAsync(RecordedQuery query, CancellationToken cancellationToken);

    /// <summary>
    /// The last place before which nothing can be added any more, 0 where nothing is recorded; signals of readings up to it may not be
    /// stored yet.
    /// </summary>
    /// <param name="cancellationToken">Stops the look.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<long> CompleteAsync(CancellationToken cancellationToken);

    /// <summary>Whether another server may have recorded something between two places, or may yet. Asks memory only.</summary>
    /// <param name="after">Behind this place.</param>
    /// <param name="before">Before this place, of a reading that this server recorded.</param>
    bool MayHoldOthers(long after, long before);

    /// <summary>Lists what other servers recorded, as soon as it is stored.</summary>
    /// <param name="query">Which readings.</param>
    /// <param name="cancellationToken">Stops the listing.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<OthersPage> ListOthersAsync(OthersQuery query, CancellationToken cancellationToken);

    /// <summary>
    /// Stores what a reading raised, and lets it be listed. To be called once for each new reading that was handed in with
    /// <see cref="ReadingEntry.AwaitsSignals"/>, in any case.
    /// </summary>
    /// <param name="reading">The reading, as it was stored.</param>
    /// <param name="signals">The signals, serialised; empty where there are none, which writes nothing.</param>
    /// <returns>A task that completes when the signals are durable. Signals that a reading has already stay as they are.</returns>
    /// <exception cref="StoreUnavailableException">The signals could not be stored; the reading will be listed without, and is left.</exception>
    Task SettleAsync(StoredReading reading, ReadOnlyMemory<byte> signals);

    /// <summary>
    /// Lists readings that were handed in with <see cref="ReadingEntry.AwaitsSignals"/> and never settled, because whoever stored them
    /// ended before, or lost the store. A reading that was settled just before such an end may be among them.
    /// </summary>
    /// <param name="cancellationToken">Stops the listing.</param>
    /// <returns>Their places in the order of recording, ascending.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<ImmutableArray<long>> ListLeftAsync(CancellationToken cancellationToken);
}
