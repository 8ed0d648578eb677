using ClearView.Records.Model;

namespace ClearView.Records.Sqlite;

/// <summary>Series in the tables of a store file.</summary>
internal sealed class SqliteSeriesStore(StoreFile file) : ISeriesStore
{
    /// <inheritdoc/>
    public Task<long> ReadAsync(SeriesQuery query, SeriesRowVisitor visit, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(query);
        ArgumentException.ThrowIfNullOrEmpty(query.Measurand, nameof(query));
        ArgumentNullException.ThrowIfNull(visit);
        return file.ReadSqliteAsync(connection => SeriesScan.Run(connection, query, visit, cancellationToken), cancellationToken);
    }
}
