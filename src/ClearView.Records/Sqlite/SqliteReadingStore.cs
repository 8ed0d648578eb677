using System.Collections.Immutable;

using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Readings in the tables of a store file.</summary>
internal sealed class SqliteReadingStore(StoreFile file, ReadingInserter inserter) : IReadingStore
{
    /// <inheritdoc/>
    public Task<AppendOutcome> AppendAsync(ReadingEntry entry, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(entry);
        if (entry.Values.FirstOrDefault(value => !double.IsFinite(value.Value)) is { Measurand: { } measurand })
        {
            throw new ArgumentException($"The value of \"{measurand}\" is not finite.", nameof(entry));
        }

        return file.WriteAsync((transaction, now) => inserter.Insert(entry, now, transaction), cancellationToken);
    }

    /// <inheritdoc/>
    public Task<StoredReading?> FindAsync(Guid id, CancellationToken cancellationToken) =>
        file.ReadAsync(
            connection =>
            {
                using var find = ReadingRows.FindCommand(connection);
                find.Parameters[0].Value = id.ToByteArray(bigEndian: true);
                using var rows = find.ExecuteReader();
                return rows.Read() ? ReadingRows.Read(rows) : null;
            },
            cancellationToken);

    /// <inheritdoc/>
    public Task<ReadingPage> ListAsync(ReadingQuery query, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(query);
        ArgumentOutOfRangeException.ThrowIfLessThan(query.PageSize, 1, nameof(query));
        ArgumentOutOfRangeException.ThrowIfLessThan(query.MaxPayloadBytes, 1, nameof(query));
        return file.ReadAsync(connection => List(connection, query, cancellationToken), cancellationToken);
    }

    /// <inheritdoc/>
    public async Task CheckAsync(CancellationToken cancellationToken)
    {
        file.ThrowIfGone();
        await file.ReadAsync(
            connection =>
            {
                using var command = new SqliteCommand("SELECT EXISTS (SELECT 1 FROM reading)", connection);
                return command.ExecuteScalar();
            },
            cancellationToken).ConfigureAwait(false);
    }

    private static ReadingPage List(SqliteConnection connection, ReadingQuery query, CancellationToken cancellationToken)
    {
        using var list = ReadingRows.ListCommand(connection, query);
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
