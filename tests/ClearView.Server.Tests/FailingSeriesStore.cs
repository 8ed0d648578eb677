using ClearView.Records.Model;

namespace ClearView.Server.Tests;

/// <summary>A store of series whose disk is gone.</summary>
internal sealed class FailingSeriesStore : ISeriesStore
{
    public Task<long> ReadAsync(SeriesQuery query, SeriesRowVisitor visit, CancellationToken cancellationToken) =>
        Task.FromException<long>(new StoreUnavailableException("disk gone"));
}
