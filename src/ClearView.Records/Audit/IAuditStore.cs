using System.Collections.Immutable;

using ClearView.Records.Model;

namespace ClearView.Records.Audit;

/// <summary>The chains that hold every record of a store.</summary>
/// <remarks>Safe for concurrent use. After disposal every call throws <see cref="ObjectDisposedException"/>.</remarks>
public interface IAuditStore
{
    /// <summary>The newest link of each chain, in the order of chains.</summary>
    /// <param name="cancellationToken">Stops the reading.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<ImmutableArray<ChainHead>> HeadsAsync(CancellationToken cancellationToken);

    /// <summary>Computes the hash of every record and of every link again, as of one moment, beside those who write.</summary>
    /// <param name="noted">Heads that were noted elsewhere; each must still be in the store.</param>
    /// <param name="progress">Is told the links that were looked at so far, every few hundred; may be <see langword="null"/>.</param>
    /// <param name="cancellationToken">Stops the verification.</param>
    /// <returns>What was found; it ends with the first break.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<AuditReport> VerifyAsync(IReadOnlyList<ChainHead> noted, IProgress<long>? progress, CancellationToken cancellationToken);

    /// <summary>The link of each record, where it has one.</summary>
    /// <param name="records">The records.</param>
    /// <param name="cancellationToken">Stops the reading.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    Task<ImmutableArray<PlacedLink>> LinksAsync(IReadOnlyList<RecordKey> records, CancellationToken cancellationToken);
}
