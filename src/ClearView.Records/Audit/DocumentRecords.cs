using System.Data.Common;

using ClearView.Records.Model;
using ClearView.Records.Schema;
using ClearView.Records.Sql;

namespace ClearView.Records.Audit;

/// <summary>Documents under names, as they stand in the store.</summary>
/// <param name="connection">A connection within a transaction.</param>
/// <param name="transaction">The transaction.</param>
internal sealed class DocumentRecords(DbConnection connection, DbTransaction? transaction) : IRecordSource
{
    private const string WithoutLink =
        """
        SELECT kind, name, version FROM versioned
        WHERE NOT EXISTS (SELECT 1 FROM link WHERE link.kind = versioned.kind AND link.name = versioned.name AND number = version)
        ORDER BY kind, name, version
        """;

    private static readonly Dictionary<string, VersionedKind> Kinds = Enum.GetValues<VersionedKind>().ToDictionary(KindKeys.Of, kind => kind);

    /// <inheritdoc/>
    public bool Keeps(string kind) => Kinds.ContainsKey(kind);

    /// <inheritdoc/>
    public IReadOnlyDictionary<RecordKey, ReadOnlyMemory<byte>> Hashes(IReadOnlyList<RecordKey> records)
    {
        Dictionary<RecordKey, ReadOnlyMemory<byte>> hashes = [];
        foreach (var record in records)
        {
            var kind = Kinds[record.Kind];
            if (VersionRows.Find(connection, transaction, kind, record.Name, record.Number) is { } version)
            {
                hashes[record] = RecordHash.Of(kind, version);
            }
        }

        return hashes;
    }

    /// <inheritdoc/>
    public long Count()
    {
        using var command = Commands.Make(connection, "SELECT count(*) FROM versioned");
        command.Transaction = transaction;
        return (long)command.ExecuteScalar()!;
    }

    /// <inheritdoc/>
    public RecordKey? FirstWithoutLink() => EachWithoutLink(" LIMIT 1") is [var first] ? first : null;

    /// <summary>Every document that no link holds.</summary>
    public IReadOnlyList<RecordKey> AllWithoutLink() => EachWithoutLink("");

    private List<RecordKey> EachWithoutLink(string limit)
    {
        using var command = Commands.Make(connection, WithoutLink + limit);
        command.Transaction = transaction;
        using var rows = command.ExecuteReader();
        List<RecordKey> records = [];
        while (rows.Read())
        {
            records.Add(new RecordKey(rows.GetString(0), rows.GetString(1), rows.GetInt64(2)));
        }

        return records;
    }
}
