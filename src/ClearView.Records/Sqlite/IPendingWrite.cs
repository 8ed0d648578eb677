using ClearView.Records.Writing;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Something that waits for the writer of a store file.</summary>
internal interface IPendingWrite : IPromise
{
    /// <summary>Writes it, within the transaction. May be called again when the transaction was rolled back.</summary>
    void Execute(SqliteTransaction transaction, DateTimeOffset now);
}
