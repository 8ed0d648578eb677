using System.Collections.Immutable;

using ClearView.Records.Model;

namespace ClearView.Server.Tests;

/// <summary>A store whose readings nobody follows.</summary>
internal sealed class UnwatchedStore : IRecordedStore
{
    public bool IsShared => false;

    public Task Changed { get; } = new TaskCompletionSource().Task;

    public Task<long> LastAsync(CancellationToken cancellationToken) => Task.FromResult(0L);

    public Task<RecordedPage> ListAsync(RecordedQuery query, CancellationToken cancellationToken) =>
        Task.FromResult(new RecordedPage([], query.After, HasMore: false));

    public Task<long> CompleteAsync(CancellationToken cancellationToken) => Task.FromResult(0L);

    public bool MayHoldOthers(long after, long before) => false;

    public Task<OthersPage> ListOthersAsync(OthersQuery query, CancellationToken cancellationToken) =>
        Task.FromResult(new OthersPage([], query.After, [], IsBroken: false));

    public Task SettleAsync(StoredReading reading, ReadOnlyMemory<byte> signals) => Task.CompletedTask;

    public Task<ImmutableArray<long>> ListLeftAsync(CancellationToken cancellationToken) => Task.FromResult(ImmutableArray<long>.Empty);
}
