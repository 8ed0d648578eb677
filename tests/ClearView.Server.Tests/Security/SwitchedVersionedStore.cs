using ClearView.Records.Model;

namespace ClearView.Server.Tests.Security;

/// <summary>An empty store that can be away, or slow.</summary>
internal sealed class SwitchedVersionedStore : IVersionedStore
{
    public bool IsAway { get; set; }

    /// <summary>What reads wait for; nothing at first.</summary>
    public TaskCompletionSource? Gate { get; set; }

    public Task<StoreVersionOutcome> StoreAsync(VersionedEntry entry, CancellationToken cancellationToken) => throw new NotSupportedException();

    public Task<StoredVersion?> FindAsync(string name, long? version, CancellationToken cancellationToken) => throw new NotSupportedException();

    public async Task<VersionPage> ListAsync(VersionQuery query, CancellationToken cancellationToken)
    {
        await (Gate?.Task ?? Task.CompletedTask);
        return IsAway ? throw new StoreUnavailableException("away") : new VersionPage([], HasMore: false);
    }
}
