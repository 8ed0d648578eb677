using System.Collections.Immutable;
using System.Data.Common;

using ClearView.Records.Audit;

namespace ClearView.Records.Sql;

/// <summary>Rows of the table of links to links and back.</summary>
internal static class LinkRows
{
    /// <summary>Columns of a link, in the order that <see cref="Read"/> takes them.</summary>
    public const string SelectLink = "SELECT chain, position, kind, name, number, record_hash, hash, covers FROM link";

    /// <summary>The last link of a chain.</summary>
    public static ChainHead? Head(DbConnection connection, DbTransaction? transaction, long chain)
    {
        using var command = Commands.Make(connection, "SELECT chain, position, hash FROM link WHERE chain = @chain ORDER BY position DESC LIMIT 1");
        command.Transaction = transaction;
        command.Add("@chain", chain);
        using var rows = command.ExecuteReader();
        return rows.Read() ? new ChainHead(rows.GetInt64(0), rows.GetInt64(1), Convert.ToHexStringLower(rows.GetFieldValue<byte[]>(2))) : null;
    }

    /// <summary>The last link of each chain, in the order of chains. Each chain costs one look into the key.</summary>
    public static ImmutableArray<ChainHead> Heads(DbConnection connection, DbTransaction? transaction)
    {
        var heads = ImmutableArray.CreateBuilder<ChainHead>();
        using var next = Commands.Make(connection, "SELECT min(chain) FROM link WHERE chain > @after");
        next.Transaction = transaction;
        next.Add("@after", long.MinValue);
        while (next.ExecuteScalar() is long chain)
        {
            heads.Add(Head(connection, transaction, chain)!.Value);
            next.Parameters[0].Value = chain;
        }

        return heads.ToImmutable();
    }

    /// <summary>The link of a record.</summary>
    public static PlacedLink? Find(DbConnection connection, DbTransaction? transaction, RecordKey record)
    {
        using var command = Commands.Make(
            connection,
            """
            SELECT chain, position, kind, name, number, record_hash, hash, covers,
                   (SELECT before.hash FROM link AS before WHERE before.chain = link.chain AND before.position = link.position - 1) AS previous
            FROM link WHERE kind = @kind AND name = @name AND number = @number
            """);
        command.Transaction = transaction;
        command.Add("@kind", record.Kind);
        command.Add("@name", record.Name);
        command.Add("@number", record.Number);
        using var rows = command.ExecuteReader();
        return rows.Read() ? new PlacedLink(Read(rows), rows.IsDBNull(8) ? LinkHash.BeforeFirst : rows.GetFieldValue<byte[]>(8)) : null;
    }

    /// <summary>A command that inserts links, for <see cref="Insert(DbCommand, DbTransaction, Link)"/>.</summary>
    public static DbCommand InsertCommand(DbConnection connection)
    {
        var command = Commands.Make(
            connection,
            """
            INSERT INTO link (chain, position, kind, name, number, record_hash, hash, covers)
            VALUES (@chain, @position, @kind, @name, @number, @record_hash, @hash, @covers)
            """);
        foreach (var name in new[] { "@chain", "@position", "@kind", "@name", "@number", "@record_hash", "@hash", "@covers" })
        {
            command.Add(name, null);
        }

        return command;
    }

    /// <summary>Inserts a link.</summary>
    public static void Insert(DbCommand command, DbTransaction transaction, Link link)
    {
        command.Transaction = transaction;
        var parameters = command.Parameters;
        parameters[0].Value = link.Chain;
        parameters[1].Value = link.Position;
        parameters[2].Value = link.Record.Kind;
        parameters[3].Value = link.Record.Name;
        parameters[4].Value = link.Record.Number;
        parameters[5].Value = link.RecordHash.ToArray();
        parameters[6].Value = link.Hash.ToArray();
        parameters[7].Value = link.Covers.IsEmpty ? DBNull.Value : link.Covers.ToArray();
        command.ExecuteNonQuery();
    }

    /// <summary>The link in the current row.</summary>
    public static Link Read(DbDataReader row) => new(
        row.GetInt64(0),
        row.GetInt64(1),
        new RecordKey(row.GetString(2), row.GetString(3), row.GetInt64(4)),
        row.GetFieldValue<byte[]>(5),
        row.GetFieldValue<byte[]>(6),
        row.IsDBNull(7) ? ReadOnlyMemory<byte>.Empty : row.GetFieldValue<byte[]>(7));
}
