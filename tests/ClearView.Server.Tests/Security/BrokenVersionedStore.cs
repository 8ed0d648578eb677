using ClearView.Records.Model;

namespace ClearView.Server.Tests.Security;

/// <summary>A store with a fault of ours.</summary>
internal sealed class BrokenVersionedStore : IVersionedStore
{
    public const string Inside = "the inside of the server";

    public Task<StoreVersionOutcome> StoreAsync(VersionedEntry entry, CancellationToken cancellationToken) => throw new InvalidOperationException(Inside);

    public Task<StoredVersion?> FindAsync(string name, long? version, CancellationToken cancellationToken) => throw new InvalidOperationException(Inside);

    public Task<VersionPage> ListAsync(VersionQuery query, CancellationToken cancellationToken) => throw new InvalidOperationException(Inside);
}
