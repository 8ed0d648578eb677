using ClearView.Records.Model;

namespace ClearView.Server.Tests;

/// <summary>A store of methods whose disk is gone.</summary>
internal sealed class FailingVersionedStore : IVersionedStore
{
    public Task<StoreVersionOutcome> StoreAsync(VersionedEntry entry, CancellationToken cancellationToken) =>
        Task.FromException<StoreVersionOutcome>(new StoreUnavailableException("disk gone"));

    public Task<StoredVersion?> FindAsync(string name, long? version, CancellationToken cancellationToken) =>
        Task.FromException<StoredVersion?>(new StoreUnavailableException("disk gone"));

    public Task<VersionPage> ListAsync(VersionQuery query, CancellationToken cancellationToken) =>
        Task.FromException<VersionPage>(new StoreUnavailableException("disk gone"));
}
