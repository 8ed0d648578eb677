using System.Collections.Immutable;

using ClearView.Records.Model;

namespace ClearView.Server.Tests.Live;

/// <summary>A store of which only is known how far it is complete.</summary>
internal sealed class FlooredStore : IRecordedStore
{
    /// <summary>Last place before which nothing can be added.</summary>
    public long Complete { get; set; }

    public bool IsShared => true;

    public Task Changed => throw new NotSupportedException();

    public Task<long> CompleteAsync(CancellationToken cancellationToken) => Task.FromResult(Complete);

    public bool MayHoldOthers(long after, long before) => throw new NotSupportedException();

    public Task<long> LastAsync(CancellationToken cancellationToken) => throw new NotSupportedException();

    public Task<RecordedPage> ListAsync(RecordedQuery query, CancellationToken cancellationToken) => throw new NotSupportedException();

    public Task<OthersPage> ListOthersAsync(OthersQuery query, CancellationToken cancellationToken) => throw new NotSupportedException();

    public Task SettleAsync(StoredReading reading, ReadOnlyMemory<byte> signals) => throw new NotSupportedException();

    public Task<ImmutableArray<long>> ListLeftAsync(CancellationToken cancellationToken) => throw new NotSupportedException();
}
