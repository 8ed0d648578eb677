using ClearView.Records.Writing;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>One row, or rows that belong together, waiting for the writer, and the promise given for them.</summary>
/// <typeparam name="TOutcome">What the promise brings.</typeparam>
/// <param name="write">Writes the rows through the writer's connection.</param>
internal sealed class PendingWrite<TOutcome>(Func<SqliteTransaction, DateTimeOffset, TOutcome> write) : Promise<TOutcome>, IPendingWrite
    where TOutcome : class
{
    /// <inheritdoc/>
    public void Execute(SqliteTransaction transaction, DateTimeOffset now) => Outcome = write(transaction, now);
}
