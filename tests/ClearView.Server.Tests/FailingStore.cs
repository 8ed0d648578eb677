using ClearView.Records.Model;

namespace ClearView.Server.Tests;

/// <summary>A store whose disk is full.</summary>
internal sealed class FailingStore : IReadingStore
{
    public Task<AppendOutcome> AppendAsync(ReadingEntry entry, CancellationToken cancellationToken) =>
        Task.FromException<AppendOutcome>(new StoreUnavailableException("disk full"));

    public Task<StoredReading?> FindAsync(Guid id, CancellationToken cancellationToken) => Task.FromResult<StoredReading?>(null);

    public Task<ReadingPage> ListAsync(ReadingQuery query, CancellationToken cancellationToken) =>
        Task.FromException<ReadingPage>(new StoreUnavailableException("disk full"));

    public Task CheckAsync(CancellationToken cancellationToken) =>
        Task.FromException(new StoreUnavailableException("disk full"));
}
