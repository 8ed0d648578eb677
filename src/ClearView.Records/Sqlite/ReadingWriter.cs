using System.Threading.Channels;

using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>The one writer of a store: takes what waits, commits it together, then keeps every promise.</summary>
/// <remarks>
/// A lone reading is committed at once. While a commit reaches the disk, readings gather and share the next one, so that
/// many posters cost few flushes.
/// </remarks>
internal sealed class ReadingWriter : IAsyncDisposable
{
    private const int LongestQueue = 4096;
    private const int LargestBatch = 256;
    private const int SqliteTooBig = 18;
    private const int SqliteConstraint = 19;
    private const int SqliteMismatch = 20;

    private readonly SqliteConnection _connection;
    private readonly TimeProvider _clock;
    private readonly ReadingInserter _inserter;
    private readonly Task _loop;
    private readonly Channel<PendingAppend> _queue = Channel.CreateBounded<PendingAppend>(
        new BoundedChannelOptions(LongestQueue) { SingleReader = true });

    /// <param name="connection">The writer's connection; the writer disposes it.</param>
    /// <param name="clock">The clock of the time of recording.</param>
    public ReadingWriter(SqliteConnection connection, TimeProvider clock)
    {
        _connection = connection;
        _clock = clock;
        _inserter = new ReadingInserter(connection);
        _loop = Task.Run(RunAsync);
    }

    /// <summary>Queues a reading; the task completes when it is durable.</summary>
    public async Task<AppendOutcome> AppendAsync(ReadingEntry entry, CancellationToken cancellationToken)
    {
        var pending = new PendingAppend(entry);
        try
        {
            await _queue.Writer.WriteAsync(pending, cancellationToken).ConfigureAwait(false);
        }
        catch (ChannelClosedException)
        {
            throw new ObjectDisposedException(nameof(SqliteReadingStore));
        }

        return await pending.Task.WaitAsync(cancellationToken).ConfigureAwait(false);
    }

    /// <summary>Commits what is queued, then stops.</summary>
    public async ValueTask DisposeAsync()
    {
        _queue.Writer.TryComplete();
        await _loop.ConfigureAwait(false);
        _inserter.Dispose();
        await _connection.DisposeAsync().ConfigureAwait(false);
    }

    private async Task RunAsync()
    {
        List<PendingAppend> batch = [];
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

    private void Commit(List<PendingAppend> batch)
    {
        try
        {
            CommitTogether(batch);
        }
        catch (Exception error) when (batch.Count > 1 && IsOfOneReading(error))
        {
            // One reading that the schema refuses must not take its neighbours with it.
            foreach (var pending in batch)
            {
                Commit([pending]);
            }
        }
#pragma warning disable CA1031 // Whatever went wrong belongs to the posters; the writer lives on for the next batch.
        catch (Exception error)
#pragma warning restore CA1031
        {
            var failure = IsOfOneReading(error)
                ? (Exception)new ArgumentException("The store refuses the reading: " + error.Message, error)
                : new StoreUnavailableException("The reading could not be stored: " + error.Message, error);
            foreach (var pending in batch)
            {
                pending.Fail(failure);
            }
        }
    }

    private void CommitTogether(List<PendingAppend> batch)
    {
        var outcomes = new AppendOutcome[batch.Count];
        using (var transaction = _connection.BeginTransaction(deferred: false))
        {
            var now = _clock.GetUtcNow().ToUniversalTime();
            for (var i = 0; i < outcomes.Length; i++)
            {
                outcomes[i] = _inserter.Insert(batch[i].Entry, now, transaction);
            }

            transaction.Commit();
        }

        for (var i = 0; i < outcomes.Length; i++)
        {
            batch[i].Complete(outcomes[i]);
        }
    }

    // Everything else that SQLite reports (a full disk, a lock, a fault of the medium) would hit the next reading as well.
    private static bool IsOfOneReading(Exception error) =>
        error is not SqliteException sqlite || sqlite.SqliteErrorCode is SqliteTooBig or SqliteConstraint or SqliteMismatch;
}
