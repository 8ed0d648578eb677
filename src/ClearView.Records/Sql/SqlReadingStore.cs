using System.Collections.Immutable;
using System.Data.Common;

using ClearView.Records.Model;
using ClearView.Records.Retention;

namespace ClearView.Records.Sql;

/// <summary>Readings in the tables of either engine.</summary>
internal sealed class SqlReadingStore(IStoreDatabase database) : IReadingStore
{
    /// <inheritdoc/>
    public Task<AppendOutcome> AppendAsync(ReadingEntry entry, CancellationToken cancellationToken) =>
        AppendAsync(entry, lane: null, cancellationToken);

    /// <inheritdoc/>
    public Task<AppendOutcome> AppendAsync(ReadingEntry entry, WriteLane? lane, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(entry);
        if (entry.Values.FirstOrDefault(value => !double.IsFinite(value.Value)) is { Measurand: { } measurand })
        {
            throw new ArgumentException($"The value of \"{measurand}\" is not finite.", nameof(entry));
        }

        // Detached from the caller's buffers, which may change before the writer's turn.
        return database.AppendAsync(entry.Detached(), lane, cancellationToken);
    }

    /// <inheritdoc/>
    public Task<StoredReading?> FindAsync(Guid id, CancellationToken cancellationToken) =>
        database.ReadAsync(connection => ReadingRows.Find(connection, transaction: null, database, id), cancellationToken);

    /// <inheritdoc/>
    public Task<RetiredMonth?> FindRetiredAsync(Guid id, CancellationToken cancellationToken) =>
        database.ReadAsync(connection => RetiredRows.Find(connection, transaction: null, database, id), cancellationToken);

    /// <inheritdoc/>
    public Task<ReadingPage> ListAsync(ReadingQuery query, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(query);
        ArgumentOutOfRangeException.ThrowIfLessThan(query.PageSize, 1, nameof(query));
        ArgumentOutOfRangeException.ThrowIfLessThan(query.MaxPayloadBytes, 1, nameof(query));
        return database.ReadAsync(connection => List(connection, query, cancellationToken), cancellationToken);
    }

    /// <inheritdoc/>
    public Task CheckAsync(CancellationToken cancellationToken) => database.CheckAsync(cancellationToken);

    private ReadingPage List(DbConnection connection, ReadingQuery query, CancellationToken cancellationToken)
    {
        using var list = ReadingRows.ListCommand(connection, query, database);
        using var rows = list.ExecuteReader();
        var readings = ImmutableArray.CreateBuilder<StoredReading>();
        var bytes = 0L;
        while (rows.Read())
        {
            if (readings.Count == query.PageSize || bytes >= query.MaxPayloadBytes)
            {
                return new ReadingPage(readings.ToImmutable(), HasMore: true);
            }

            cancellationToken.ThrowIfCancellationRequested();
            var reading = ReadingRows.Read(rows);
            bytes += reading.Entry.PayloadLength;
            readings.Add(reading);
        }

        return new ReadingPage(readings.ToImmutable(), HasMore: false);
    }
}
