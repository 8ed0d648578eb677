using System.Data.Common;

using ClearView.Records.Audit;
using ClearView.Records.Sql;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Writes the links of a store file through a prepared command of one connection.</summary>
/// <remarks>
/// Every writer of the file goes on with the same chain: a transaction excludes the others, and reads the chain's end first.
/// </remarks>
internal sealed class LinkInserter(SqliteConnection connection) : IDisposable
{
    private const long Chain = ChainAdoption.Chain;

    private readonly DbCommand _insert = LinkRows.InsertCommand(connection);
    private SqliteTransaction? _transaction;
    private ChainPen? _pen;

    /// <summary>Writes the link of a record. Call within the transaction that inserts the record.</summary>
    public void Append(RecordKey record, ReadOnlyMemory<byte> recordHash, SqliteTransaction transaction)
    {
        if (!ReferenceEquals(_transaction, transaction))
        {
            _transaction = transaction;
            _pen = new ChainPen(Chain, LinkRows.Head(connection, transaction, Chain), _pen?.LinksSinceHeads);
        }

        // Other chains come with a copy from a database.
        if (_pen!.AreHeadsDue && _pen.NextHeads(LinkRows.Heads(connection, transaction)) is { } heads)
        {
            Import(heads, transaction);
        }

        Import(_pen.Next(record, recordHash), transaction);
    }

    /// <summary>Writes a link as it is.</summary>
    public void Import(Link link, SqliteTransaction transaction) => LinkRows.Insert(_insert, transaction, link);

    public void Dispose() => _insert.Dispose();
}
