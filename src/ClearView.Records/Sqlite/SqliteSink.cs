using ClearView.Records.Audit;
using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Sql;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Takes rows into a store file, within a transaction of its writer.</summary>
internal sealed class SqliteSink(
    ReadingInserter inserter, AwaitedRows awaited, LinkInserter links, SqliteTransaction transaction, IStoreDatabase database) : IRowSink
{
    /// <inheritdoc/>
    public void AddReadings(IReadOnlyList<StoredReading> readings)
    {
        foreach (var reading in readings)
        {
            inserter.Import(reading, transaction, database);
            if (!reading.Signals.IsEmpty)
            {
                SignalRows.Insert(transaction.Connection!, transaction, reading.Entry.Line, reading.Sequence, reading.Signals.ToArray());
            }
        }
    }

    /// <inheritdoc/>
    public void AddAwaited(IReadOnlyList<(string Line, long Sequence)> readings)
    {
        foreach (var (_, sequence) in readings)
        {
            awaited.Insert(sequence, transaction);
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

    /// <inheritdoc/>
    public void AddPicture(string line, long sequence, byte[] picture) =>
        PictureRows.Insert(transaction.Connection!, transaction, line, sequence, picture);

    /// <inheritdoc/>
    public void AddLinks(IReadOnlyList<Link> rows)
    {
        foreach (var link in rows)
        {
            links.Import(link, transaction);
        }
    }
}
