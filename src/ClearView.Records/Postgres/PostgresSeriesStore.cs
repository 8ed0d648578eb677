using ClearView.Records.Model;

namespace ClearView.Records.Postgres;

/// <summary>Series in the tables of a database.</summary>
internal sealed class PostgresSeriesStore(PostgresDatabase database) : ISeriesStore
{
    /// <inheritdoc/>
    public Task<long> ReadAsync(SeriesQuery query, SeriesRowVisitor visit, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(query);
        ArgumentException.ThrowIfNullOrEmpty(query.Measurand, nameof(query));
        ArgumentNullException.ThrowIfNull(visit);
        var scan = new SeriesScan(query, visit);
        return database.ReadAsync(connection => scan.Run(connection, cancellationToken), () => scan.Count == 0, cancellationToken);
    }
}
