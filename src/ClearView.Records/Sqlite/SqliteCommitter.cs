using System.Data.Common;

using ClearView.Records.Writing;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Writes batches through the writer's connection of a store file.</summary>
internal sealed class SqliteCommitter : IBatchCommitter<IPendingWrite>
{
    private const int SqliteTooBig = 18;
    private const int SqliteConstraint = 19;
    private const int SqliteMismatch = 20;

    private readonly LinkInserter _links;
    private readonly ReadingInserter _inserter;

    private readonly SqliteConnection _connection;
    private readonly TimeProvider _clock;
    private AwaitedRows? _awaitedRows;

    /// <param name="connection">The connection; the committer disposes it.</param>
    /// <param name="clock">The clock of the time of recording.</param>
    public SqliteCommitter(SqliteConnection connection, TimeProvider clock)
    {
        _connection = connection;
        _clock = clock;
        _links = new LinkInserter(connection);
        _inserter = new ReadingInserter(connection, _links);
    }

    /// <summary>Writes links; within a write only.</summary>
    public LinkInserter Links => _links;

    /// <summary>Writes readings; within a write only.</summary>
    public ReadingInserter Readings => _inserter;

    /// <summary>Writes rows of readings whose signals are not stored yet; within a write only.</summary>
    public AwaitedRows AwaitedRows => _awaitedRows ??= new AwaitedRows(_connection);

    /// <summary>Readings whose signals are not stored yet.</summary>
    public AwaitedSignals Awaited { get; } = new();

    /// <inheritdoc/>
    public Task CommitAsync(IReadOnlyList<IPendingWrite> batch)
    {
        try
        {
            using var transaction = _connection.BeginTransaction(deferred: false);
            var now = _clock.GetUtcNow().ToUniversalTime();
            foreach (var pending in batch)
            {
                pending.Execute(transaction, now);
            }

            // With a write that comes anyway: by itself it would flush the disk for something that only a kill asks for.
            var settled = Awaited.Settled;
            if (settled.Length > 0)
            {
                AwaitedRows.Delete(settled, transaction);
            }

            transaction.Commit();
            Awaited.Keep(settled);
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
    public async ValueTask DisposeAsync()
    {
        try
        {
            if (Awaited.Settled.Length > 0)
            {
                await CommitAsync([]).ConfigureAwait(false);
            }
        }
        catch (SqliteException)
        {
            // The next server finds that there is nothing to settle.
        }

        _inserter.Dispose();
        _links.Dispose();
        _awaitedRows?.Dispose();
        await _connection.DisposeAsync().ConfigureAwait(false);
    }
}
