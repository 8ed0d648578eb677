using ClearView.Quality.Series;
using ClearView.Records.Model;

namespace ClearView.Server.Services;

/// <summary>Series of the store to columns.</summary>
internal static class StoredSeriesColumns
{
    /// <summary>Reads a series, with no more of it than is asked for.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public static async Task<SeriesColumns> ReadColumnsAsync(
        this ISeriesStore series, SeriesQuery query, SeriesParts parts, CancellationToken cancellationToken)
    {
        var columns = new SeriesColumns(parts);
        await series.ReadAsync(
            query with { OmitPlaces = (parts & SeriesParts.Places) == 0 },
            (in SeriesRow row) => columns.Add(new SeriesReading(row.MeasuredAtTicks, row.Sequence, row.Value, row.Label, row.AcrossMm, row.AlongM)),
            cancellationToken).ConfigureAwait(false);
        return columns;
    }
}
