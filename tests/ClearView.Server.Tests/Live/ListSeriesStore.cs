using ClearView.Records.Model;

namespace ClearView.Server.Tests.Live;

/// <summary>A series in memory, whose reading takes a stated time of a clock.</summary>
internal sealed class ListSeriesStore(ManualClock clock, TimeSpan takes) : ISeriesStore
{
    public List<SeriesRow> Rows { get; } = [];

    /// <summary>How often it was read.</summary>
    public int Reads { get; private set; }

    /// <summary>Fails when it is read next.</summary>
    public bool FailsOnce { get; set; }

    public Task<long> ReadAsync(SeriesQuery query, SeriesRowVisitor visit, CancellationToken cancellationToken)
    {
        Reads++;
        clock.Advance(takes);
        if (FailsOnce)
        {
            FailsOnce = false;
            return Task.FromException<long>(new StoreUnavailableException("disk full"));
        }

        foreach (var row in Rows.OrderBy(row => (row.MeasuredAtTicks, row.Sequence)))
        {
            visit(row);
        }

        return Task.FromResult((long)Rows.Count);
    }
}
