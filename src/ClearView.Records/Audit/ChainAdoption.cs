using System.Data.Common;

using ClearView.Records.Sql;

namespace ClearView.Records.Audit;

/// <summary>Gives links to the records of a store from before the chains, a batch per transaction.</summary>
/// <remarks>
/// A link given here proves that the record is as it was at that moment, not since it was written. Batches of several servers may
/// interleave: each finds the place where the last one ended.
/// </remarks>
internal static class ChainAdoption
{
    /// <summary>Chain that takes the records.</summary>
    public const long Chain = 1;

    private const int LargestBatch = 500;

    /// <summary>Adopts the next batch.</summary>
    /// <param name="connection">A connection within a transaction that excludes other writers of links.</param>
    /// <param name="transaction">The transaction; the caller commits it.</param>
    /// <param name="queries">Questions in the way of the engine.</param>
    /// <returns>Whether more may be left.</returns>
    public static bool Continue(DbConnection connection, DbTransaction transaction, IAuditQueries queries)
    {
        if (Scalar(connection, transaction, "SELECT pending FROM adoption") is null)
        {
            return false;
        }

        var readings = NextReadings(connection, transaction, queries);
        if (readings.Count > 0)
        {
            Write(connection, transaction, readings, new ReadingRecords(connection, transaction, queries).Hashes(readings));
            return true;
        }

        var signals = new SignalRecords(connection, transaction, queries);
        var raised = signals.WithoutLink(LargestBatch);
        if (raised.Count > 0)
        {
            Write(connection, transaction, raised, signals.Hashes(raised));
            return true;
        }

        var documents = new DocumentRecords(connection, transaction);
        var versions = documents.AllWithoutLink();
        Write(connection, transaction, versions, documents.Hashes(versions));
        Scalar(connection, transaction, "DELETE FROM adoption");
        return false;
    }

    private static void Write(
        DbConnection connection, DbTransaction transaction, IReadOnlyList<RecordKey> records, IReadOnlyDictionary<RecordKey, ReadOnlyMemory<byte>> hashes)
    {
        var pen = new ChainPen(Chain, LinkRows.Head(connection, transaction, Chain), linksSinceHeads: 0);
        using var insert = LinkRows.InsertCommand(connection);
        foreach (var record in records)
        {
            LinkRows.Insert(insert, transaction, pen.Next(record, hashes[record]));
        }
    }

    private static List<RecordKey> NextReadings(DbConnection connection, DbTransaction transaction, IAuditQueries queries)
    {
        using var command = Commands.Make(
            connection,
            $"SELECT sequence FROM {queries.SequenceTable} WHERE sequence > (SELECT coalesce(max(number), 0) FROM link WHERE kind = 'reading' AND name = '') ORDER BY sequence LIMIT {LargestBatch}");
        command.Transaction = transaction;
        using var rows = command.ExecuteReader();
        List<RecordKey> records = [];
        while (rows.Read())
        {
            records.Add(RecordKey.Reading(rows.GetInt64(0)));
        }

        return records;
    }

    private static object? Scalar(DbConnection connection, DbTransaction transaction, string sql)
    {
        using var command = Commands.Make(connection, sql);
        command.Transaction = transaction;
        return command.ExecuteScalar();
    }
}
