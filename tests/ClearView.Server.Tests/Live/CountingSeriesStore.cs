using ClearView.Records.Model;

namespace ClearView.Server.Tests.Live;

/// <summary>Counts how often series are read from a store.</summary>
internal sealed class CountingSeriesStore(ISeriesStore store) : ISeriesStore
{
    private int _reads;

    /// <summary>How often they were.</summary>
    public int Reads => Volatile.Read(ref _reads);

    public Task<long> ReadAsync(SeriesQuery query, SeriesRowVisitor visit, CancellationToken cancellationToken)
    {
        Interlocked.Increment(ref _reads);
        return store.ReadAsync(query, visit, cancellationToken);
    }
}
