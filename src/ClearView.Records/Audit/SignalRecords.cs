using System.Data.Common;

using ClearView.Records.Sql;

namespace ClearView.Records.Audit;

/// <summary>Signals of readings, as they stand in the store.</summary>
/// <param name="connection">A connection within a transaction.</param>
/// <param name="transaction">The transaction.</param>
/// <param name="queries">Questions in the way of the engine.</param>
internal sealed class SignalRecords(DbConnection connection, DbTransaction? transaction, IAuditQueries queries) : IRecordSource
{
    /// <inheritdoc/>
    public bool Keeps(string kind) => kind == RecordKey.SignalsKind;

    /// <inheritdoc/>
    public IReadOnlyDictionary<RecordKey, ReadOnlyMemory<byte>> Hashes(IReadOnlyList<RecordKey> records)
    {
        Dictionary<RecordKey, ReadOnlyMemory<byte>> hashes = [];

        // The reading knows its line, which leads the key of its signals.
        using var command = Commands.Make(
            connection,
            $"SELECT reading_signal.line, signals FROM {queries.SequenceTable} AS raised JOIN reading_signal ON reading_signal.line = raised.line AND reading_signal.sequence = raised.sequence WHERE raised.sequence = @sequence");
        command.Transaction = transaction;
        command.Add("@sequence", 0L);
        foreach (var record in records.Where(record => record.Name.Length == 0))
        {
            command.Parameters[0].Value = record.Number;
            using var rows = command.ExecuteReader();
            if (rows.Read())
            {
                hashes[record] = RecordHash.OfSignals(rows.GetString(0), record.Number, rows.GetFieldValue<byte[]>(1));
            }
        }

        return hashes;
    }

    /// <inheritdoc/>
    public long Count()
    {
        using var command = Commands.Make(connection, "SELECT count(*) FROM reading_signal");
        command.Transaction = transaction;
        return (long)command.ExecuteScalar()!;
    }

    /// <inheritdoc/>
    public RecordKey? FirstWithoutLink() => WithoutLink(1) is [var first] ? first : null;

    /// <summary>Signals that no link holds, in the order of their readings.</summary>
    /// <param name="most">How many at most.</param>
    public IReadOnlyList<RecordKey> WithoutLink(int most)
    {
        using var command = Commands.Make(
            connection,
            "SELECT sequence FROM reading_signal WHERE NOT EXISTS (SELECT 1 FROM link WHERE kind = 'signals' AND name = '' AND number = sequence) ORDER BY sequence LIMIT @most");
        command.Transaction = transaction;
        command.Add("@most", (long)most);
        using var rows = command.ExecuteReader();
        List<RecordKey> records = [];
        while (rows.Read())
        {
            records.Add(RecordKey.Signals(rows.GetInt64(0)));
        }

        return records;
    }
}
