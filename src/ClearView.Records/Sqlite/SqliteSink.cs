using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Sql;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Takes rows into a store file, within a transaction of its writer.</summary>
internal sealed class SqliteSink(ReadingInserter inserter, SqliteTransaction transaction) : IRowSink
{
    /// <inheritdoc/>
    public void AddReadings(IReadOnlyList<StoredReading> readings)
    {
        foreach (var reading in readings)
        {
            inserter.Import(reading, transaction);
            if (!reading.Signals.IsEmpty)
            {
                SignalRows.Insert(transaction.Connection!, transaction, reading.Entry.Line, reading.Sequence, reading.Signals.ToArray());
            }
        }
    }

    /// <inheritdoc/>
    public void AddValues(IReadOnlyList<SeriesValue> values)
    {
        foreach (var value in values)
        {
            inserter.Import(value, transaction);
        }
    }

    /// <inheritdoc/>
    public void AddVersion(VersionedKind kind, StoredVersion version) =>
        VersionRows.Insert(transaction.Connection!, transaction, kind, version);
}
