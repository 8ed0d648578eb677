using System.Threading.Channels;

using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>The one writer of a store: takes what waits, commits it together, then keeps every promise.</summary>
/// <remarks>
/// A lone write is committed at once. While a commit reaches the disk, writes gather and share the next one, so that
/// many posters cost few flushes.
/// </remarks>
internal sealed class StoreWriter : IAsyncDisposable
{
    private const int LongestQueue = 4096;
    private const int LargestBatch = 256;
    private const int SqliteTooBig = 18;
    private const int SqliteConstraint = 19;
    private const int SqliteMismatch = 20;

    private readonly TimeProvider _clock;
    private readonly Task _loop;
    private readonly Channel<IPendingWrite> _queue = Channel.CreateBounded<IPendingWrite>(
        new BoundedChannelOptions(LongestQueue) { SingleReader = true });

    /// <param name="connection">The writer's connection; the writer disposes it.</param>
    /// <param name="clock">The clock of the time of recording.</param>
    public StoreWriter(SqliteConnection connection, TimeProvider clock)
    {
        Connection = connection;
        _clock = clock;
        _loop = Task.Run(RunAsync);
    }

    /// <summary>Raised on the writer's thread when a transaction was rolled back, before anything else is written.</summary>
    public event Action? RolledBack;

    /// <summary>The connection that writes go through; commands on it run within a write only.</summary>
    public SqliteConnection Connection { get; }

    /// <summary>Queues a write; the task completes when it is durable.</summary>
    public async Task<TOutcome> WriteAsync<TOutcome>(
        Func<SqliteTransaction, DateTimeOffset, TOutcome> write, CancellationToken cancellationToken)
        where TOutcome : class
    {
        var pending = new PendingWrite<TOutcome>(write);
        try
        {
            await _queue.Writer.WriteAsync(pending, cancellationToken).ConfigureAwait(false);
        }
        catch (ChannelClosedException)
        {
            throw StoreFile.Closed();
        }

        return await pending.Task.WaitAsync(cancellationToken).ConfigureAwait(false);
    }

    /// <summary>Commits what is queued, then stops.</summary>
    public async ValueTask DisposeAsync()
    {
        _queue.Writer.TryComplete();
        await _loop.ConfigureAwait(false);
        await Connection.DisposeAsync().ConfigureAwait(false);
    }

    private async Task RunAsync()
    {
        List<IPendingWrite> batch = [];
        while (await _queue.Reader.WaitToReadAsync().ConfigureAwait(false))
        {
            while (batch.Count < LargestBatch && _queue.Reader.TryRead(out var pending))
            {
                batch.Add(pending);
            }

            Commit(batch);
            batch.Clear();
        }
    }

    private void Commit(List<IPendingWrite> batch)
    {
        try
        {
            CommitTogether(batch);
        }
        catch (Exception error) when (batch.Count > 1 && IsOfOneWrite(error))
        {
            // One write that the schema refuses must not take its neighbours with it.
            foreach (var pending in batch)
            {
                Commit([pending]);
            }
        }
#pragma warning disable CA1031 // Whatever went wrong belongs to the posters; the writer lives on for the next batch.
        catch (Exception error)
#pragma warning restore CA1031
        {
            var failure = IsOfOneWrite(error)
                ? (Exception)new ArgumentException("The store refuses what was handed in: " + error.Message, error)
                : new StoreUnavailableException("Nothing could be stored: " + error.Message, error);
            foreach (var pending in batch)
            {
                pending.Fail(failure);
            }
        }
    }

    private void CommitTogether(List<IPendingWrite> batch)
    {
        try
        {
            using var transaction = Connection.BeginTransaction(deferred: false);
            var now = _clock.GetUtcNow().ToUniversalTime();
            foreach (var pending in batch)
            {
                pending.Execute(transaction, now);
            }

            transaction.Commit();
        }
        catch
        {
            RolledBack?.Invoke();
            throw;
        }

        foreach (var pending in batch)
        {
            pending.Complete();
        }
    }

    // Everything else that SQLite reports (a full disk, a lock, a fault of the medium) would hit the next write as well.
    private static bool IsOfOneWrite(Exception error) =>
        error is not SqliteException sqlite || sqlite.SqliteErrorCode is SqliteTooBig or SqliteConstraint or SqliteMismatch;
}
