using System.Collections.Immutable;

using ClearView.Records.Model;

namespace ClearView.Server.Tests.Live;

/// <summary>A store that, as long as it is told to, is gone whenever signals are to be stored.</summary>
internal sealed class ForgetfulStore(IRecordedStore store, Func<bool> forgets) : IRecordedStore
{
    public bool IsShared => store.IsShared;

    public Task Changed => store.Changed;

    public Task<long> LastAsync(CancellationToken cancellationToken) => store.LastAsync(cancellationToken);

    public Task<RecordedPage> ListAsync(RecordedQuery query, CancellationToken cancellationToken) => store.ListAsync(query, cancellationToken);

    public Task<long> CompleteAsync(CancellationToken cancellationToken) => store.CompleteAsync(cancellationToken);

    public bool MayHoldOthers(long after, long before) => store.MayHoldOthers(after, before);

    public Task<OthersPage> ListOthersAsync(OthersQuery query, CancellationToken cancellationToken) => store.ListOthersAsync(query, cancellationToken);

    public Task SettleAsync(StoredReading reading, ReadOnlyMemory<byte> signals) =>
        forgets() ? Task.FromException(new StoreUnavailableException("gone")) : store.SettleAsync(reading, signals);

    public Task<ImmutableArray<long>> ListLeftAsync(CancellationToken cancellationToken) => store.ListLeftAsync(cancellationToken);
}
