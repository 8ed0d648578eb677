using ClearView.Records.Model;

namespace ClearView.Server.Tests;

/// <summary>Series that cannot be read.</summary>
internal sealed class FailingSeriesStore : ISeriesStore
{
    public Task<long> ReadAsync(SeriesQuery query, SeriesRowVisitor visit, CancellationToken cancellationToken) =>
        Task.FromException<long>(new StoreUnavailableException("disk full"));
}
