using ClearView.Records.Model;

namespace ClearView.Server.Tests;

/// <summary>A store of methods whose disk is gone.</summary>
internal sealed class FailingMethodStore : IMethodStore
{
    public Task<StoreMethodOutcome> StoreAsync(MethodEntry entry, CancellationToken cancellationToken) =>
        Task.FromException<StoreMethodOutcome>(new StoreUnavailableException("disk gone"));

    public Task<StoredMethod?> FindAsync(string name, long? version, CancellationToken cancellationToken) =>
        Task.FromException<StoredMethod?>(new StoreUnavailableException("disk gone"));

    public Task<MethodPage> ListAsync(MethodQuery query, CancellationToken cancellationToken) =>
        Task.FromException<MethodPage>(new StoreUnavailableException("disk gone"));
}
