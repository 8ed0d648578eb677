namespace ClearView.Records.Model;

/// <summary>Keeps documents of one kind under names, in versions, for good. Nothing is ever changed or removed.</summary>
/// <remarks>Safe for concurrent use. After disposal every call throws <see cref="ObjectDisposedException"/>.</remarks>
public interface IVersionedStore
{
    /// <summary>Stores a document as the next version of its name, unless the newest version holds the same.</summary>
    /// <param name="entry">The document.</param>
    /// <param name="cancellationToken">Stops the wait; the document may be stored nevertheless.</param>
    /// <returns>The document as it is stored. It is on durable storage when the task completes.</returns>
    /// <exception cref="ArgumentException">The name is empty, or a text is null.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot take the document now; trying again is safe.</exception>
    Task<StoreVersionOutcome> StoreAsync(VersionedEntry entry, CancellationToken cancellationToken);

    /// <summary>Finds a document by its name.</summary>
    /// <param name="name">The name, exactly.</param>
    /// <param name="version">The version, counted from 1; <see langword="null"/> gives the newest.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>The document, or <see langword="null"/>.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<StoredVersion?> FindAsync(string name, long? version, CancellationToken cancellationToken);

    /// <summary>Lists documents by name, and by version within a name, page by page.</summary>
    /// <param name="query">Which documents.</param>
    /// <param name="cancellationToken">Stops the listing.</param>
    /// <returns>A page. To go on, ask with <see cref="VersionQuery.After"/> set to the last document's place.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The page size or byte limit is below 1.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<VersionPage> ListAsync(VersionQuery query, CancellationToken cancellationToken);
}
