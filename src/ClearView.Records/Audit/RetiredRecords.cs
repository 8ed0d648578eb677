using System.Data.Common;

using ClearView.Records.Retention;
using ClearView.Records.Sql;

namespace ClearView.Records.Audit;

/// <summary>Retirements of months, as they stand in the store.</summary>
/// <param name="connection">A connection within a transaction.</param>
/// <param name="transaction">The transaction.</param>
/// <param name="queries">Questions in the way of the engine.</param>
internal sealed class RetiredRecords(DbConnection connection, DbTransaction? transaction, IAuditQueries queries) : IRecordSource
{
    // Some dozens; in the snapshot they stay the same.
    private readonly Dictionary<RecordKey, RetiredMonth> _months = RetiredRows.All(connection, transaction).ToDictionary(RetiredRows.KeyOf);

    /// <inheritdoc/>
    public bool Keeps(string kind) => kind == RecordKey.RetiredKind;

    /// <inheritdoc/>
    public IReadOnlyDictionary<RecordKey, ReadOnlyMemory<byte>> Hashes(IReadOnlyList<RecordKey> records) =>
        records.Where(_months.ContainsKey).ToDictionary(record => record, record => (ReadOnlyMemory<byte>)RecordHash.Of(_months[record]));

    /// <inheritdoc/>
    public long Count() => _months.Count;

    /// <inheritdoc/>
    public RecordKey? FirstWithoutLink() =>
        _months.Keys.OrderBy(key => key.Name, StringComparer.Ordinal).ThenBy(key => key.Number)
            .Where(key => LinkRows.Find(connection, transaction, key) is null).Select(key => (RecordKey?)key).FirstOrDefault();

    /// <summary>Which of these readings were retired.</summary>
    public HashSet<long> RetiredOf(IReadOnlyList<long> sequences)
    {
        HashSet<long> retired = [];
        if (_months.Count == 0 || sequences.Count == 0)
        {
            return retired;
        }

        using var command = queries.Retired(connection, sequences);
        command.Transaction = transaction;
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            retired.Add(rows.GetInt64(0));
        }

        return retired;
    }

    /// <summary>The first retirement that says another number of readings than identifiers were left of it.</summary>
    public RecordKey? FirstOfAnotherCount()
    {
        if (_months.Count == 0)
        {
            return null;
        }

        Dictionary<RecordKey, long> counts = [];
        using var command = Commands.Make(connection, "SELECT month, part, count(*) FROM retired_reading GROUP BY month, part");
        command.Transaction = transaction;
        command.CommandTimeout = 0;
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            counts[new RecordKey(RecordKey.RetiredKind, rows.GetString(0), rows.GetInt64(1))] = rows.GetInt64(2);
        }

        return _months.Where(pair => counts.GetValueOrDefault(pair.Key) != pair.Value.Readings).Select(pair => (RecordKey?)pair.Key).FirstOrDefault();
    }
}
