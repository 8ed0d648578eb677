namespace ClearView.Records.Model;

/// <summary>Keeps methods under names, in versions, for good. Nothing is ever changed or removed.</summary>
/// <remarks>Safe for concurrent use. After disposal every call throws <see cref="ObjectDisposedException"/>.</remarks>
public interface IMethodStore
{
    /// <summary>Stores a method as the next version of its name, unless the newest version holds the same.</summary>
    /// <param name="entry">The method.</param>
    /// <param name="cancellationToken">Stops the wait; the method may be stored nevertheless.</param>
    /// <returns>The method as it is stored. It is on durable storage when the task completes.</returns>
    /// <exception cref="ArgumentException">The name is empty, or a text is null.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot take the method now; trying again is safe.</exception>
    Task<StoreMethodOutcome> StoreAsync(MethodEntry entry, CancellationToken cancellationToken);

    /// <summary>Finds a method by its name.</summary>
    /// <param name="name">The name, exactly.</param>
    /// <param name="version">The version, counted from 1; <see langword="null"/> gives the newest.</param>
    /// <param name="cancellationToken">Stops the search.</param>
    /// <returns>The method, or <see langword="null"/>.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<StoredMethod?> FindAsync(string name, long? version, CancellationToken cancellationToken);

    /// <summary>Lists methods by name, and by version within a name, page by page.</summary>
    /// <param name="query">Which methods.</param>
    /// <param name="cancellationToken">Stops the listing.</param>
    /// <returns>A page. To go on, ask with <see cref="MethodQuery.After"/> set to the last method's place.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The page size or byte limit is below 1.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<MethodPage> ListAsync(MethodQuery query, CancellationToken cancellationToken);
}
