using ClearView.Records.Model;

namespace ClearView.Server.Tests.Security;

/// <summary>An empty store that can be away.</summary>
internal sealed class SwitchedVersionedStore : IVersionedStore
{
    public bool IsAway { get; set; }

    public Task<StoreVersionOutcome> StoreAsync(VersionedEntry entry, CancellationToken cancellationToken) => throw new NotSupportedException();

    public Task<StoredVersion?> FindAsync(string name, long? version, CancellationToken cancellationToken) => throw new NotSupportedException();

    public Task<VersionPage> ListAsync(VersionQuery query, CancellationToken cancellationToken) =>
        IsAway ? throw new StoreUnavailableException("away") : Task.FromResult(new VersionPage([], HasMore: false));
}
