using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Something that waits for the writer.</summary>
internal interface IPendingWrite
{
    /// <summary>Writes it, within the transaction. May be called again when the transaction was rolled back.</summary>
    void Execute(SqliteTransaction transaction, DateTimeOffset now);

    /// <summary>Keeps the promise: what was written is durable.</summary>
    void Complete();

    /// <summary>Tells that nothing was written.</summary>
    void Fail(Exception error);
}
