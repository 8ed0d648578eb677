using System.Data.Common;

using ClearView.Records.Writing;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Writes batches through the writer's connection of a store file.</summary>
/// <param name="connection">The connection; the committer disposes it.</param>
/// <param name="clock">The clock of the time of recording.</param>
internal sealed class SqliteCommitter(SqliteConnection connection, TimeProvider clock) : IBatchCommitter<IPendingWrite>
{
    private const int SqliteTooBig = 18;
    private const int SqliteConstraint = 19;
    private const int SqliteMismatch = 20;

    private readonly ReadingInserter _inserter = new(connection);

    /// <summary>Writes readings; within a write only.</summary>
    public ReadingInserter Readings => _inserter;

    /// <summary>Readings whose signals are not stored yet.</summary>
    public AwaitedSignals Awaited { get; } = new();

    /// <inheritdoc/>
    public Task CommitAsync(IReadOnlyList<IPendingWrite> batch)
    {
        try
        {
            using var transaction = connection.BeginTransaction(deferred: false);
            var now = clock.GetUtcNow().ToUniversalTime();
            foreach (var pending in batch)
            {
                pending.Execute(transaction, now);
            }

            transaction.Commit();
            Awaited.Keep();
            return Task.CompletedTask;
        }
        catch
        {
            _inserter.Forget();
            Awaited.Forget();
            throw;
        }
    }

    // Everything else that SQLite reports (a full disk, a lock, a fault of the medium) would hit the next write as well. An error
    // of another database comes from a store that is copied from.

    /// <inheritdoc/>
    public bool IsOfOneWrite(Exception error) =>
        error is not DbException || error is SqliteException { SqliteErrorCode: SqliteTooBig or SqliteConstraint or SqliteMismatch };

    /// <inheritdoc/>
    public bool ShowsInReads(Exception error) => false;

    /// <inheritdoc/>
    public ValueTask DisposeAsync()
    {
        _inserter.Dispose();
        return connection.DisposeAsync();
    }
}
