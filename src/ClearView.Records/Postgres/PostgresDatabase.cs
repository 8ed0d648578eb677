using System.Collections.Immutable;
using System.Data;
using System.Data.Common;

using ClearView.Records.Audit;
using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Schema;
using ClearView.Records.Sql;
using ClearView.Records.Writing;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>The database behind a store: its one writer, and connections for those who read beside it.</summary>
internal sealed class PostgresDatabase : IStoreDatabase, IAsyncDisposable
{
    private readonly NpgsqlDataSource _source;
    private readonly GroupWriter<IPromise> _writer;
    private readonly ChangeNotices _notices;
    private readonly OwnSequences _own = new();
    private int _disposed;

    private PostgresDatabase(NpgsqlDataSource source, TimeProvider clock)
    {
        _source = source;
        _notices = new ChangeNotices(source, () => Changes!.Tell());
        Changes = new Changes(_notices.Listen);
        _writer = new GroupWriter<IPromise>(new PostgresCommitter(source, this, _own, clock), clock);
    }

    // Line and time lead to the part of the table and to its key. Without the guard of identifiers two lines may have taken one at the
    // same moment: the first stands for it.

    /// <inheritdoc/>
    public string FindByIdCondition =>
        "id = @id AND line = (SELECT line FROM reading_id WHERE id = @id ORDER BY sequence LIMIT 1)"
        + " AND measured_at = (SELECT measured_at FROM reading_id WHERE id = @id ORDER BY sequence LIMIT 1)";

    /// <inheritdoc/>
    public bool IsShared => true;

    /// <inheritdoc/>
    public Changes Changes { get; }

    // A part of the table may have no statistics yet: "OFFSET 0" keeps the look by key, reading by reading.

    /// <inheritdoc/>
    public string SelectRecorded(string filters) =>
        "SELECT stored.* FROM (SELECT id, line, measured_at, sequence AS place FROM reading_id WHERE sequence > @after AND sequence <= @through) AS recorded"
        + " CROSS JOIN LATERAL (" + ReadingRows.SelectReading
        + " WHERE reading.line = recorded.line AND reading.measured_at = recorded.measured_at AND reading.id = recorded.id" + filters
        + " OFFSET 0) AS stored ORDER BY recorded.place LIMIT @limit";

    /// <inheritdoc/>
    public long LastListable(DbConnection connection, bool beforeSignals) => RecordingFloors.Complete(connection, beforeSignals);

    /// <inheritdoc/>
    public bool MayHoldOthers(long after, long before) => !_own.Cover(after, before);

    /// <inheritdoc/>
    public OthersPage ListOthers(DbConnection connection, OthersQuery query) => new OthersScan(_own).Run((NpgsqlConnection)connection, query);

    /// <inheritdoc/>
    public IAuditQueries AuditQueries { get; } = new PostgresAuditQueries();

    /// <summary>Opens a database, and brings its schema forward where needed.</summary>
    public static async Task<PostgresDatabase> OpenAsync(
        string connectionString, TimeProvider clock, ImmutableArray<Migration> migrations, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(clock);
        var source = NpgsqlDataSource.Create(PostgresConnectionString.Complete(connectionString));
        try
        {
            var connection = await source.OpenConnectionAsync(cancellationToken).ConfigureAwait(false);
            await using (connection.ConfigureAwait(false))
            {
                await PostgresMigrator.MigrateAsync(connection, migrations, cancellationToken).ConfigureAwait(false);
                var database = new PostgresDatabase(source, clock);
                if (migrations.Length == Migration.OfPostgres.Length)
                {
                    database.Adopt(connection, cancellationToken);
                }

                return database;
            }
        }
        catch (Exception error) when (PostgresErrors.IsOfDatabase(error))
        {
            await source.DisposeAsync().ConfigureAwait(false);
            throw NotOpened(connectionString, error);
        }
        catch
        {
            await source.DisposeAsync().ConfigureAwait(false);
            throw;
        }
    }

    /// <summary>What an error at opening means.</summary>
    public static StoreUnavailableException NotOpened(string connectionString, Exception error) => new(
        $"The database {PostgresConnectionString.Describe(connectionString)} cannot be opened: {error.Message}", error);

    /// <inheritdoc/>
    public object IdValue(Guid id) => id;

    /// <inheritdoc/>
    public Task<T> ReadAsync<T>(Func<DbConnection, T> read, CancellationToken cancellationToken) =>
        ReadAsync(read, () => true, cancellationToken);

    /// <summary>Reads beside the writer, on another thread.</summary>
    /// <param name="read">Reads through the connection, synchronously.</param>
    /// <param name="mayRepeat">Whether it may run again when a connection of the pool proves dead.</param>
    /// <param name="cancellationToken">Stops the wait.</param>
    public async Task<T> ReadAsync<T>(Func<NpgsqlConnection, T> read, Func<bool> mayRepeat, CancellationToken cancellationToken)
    {
        for (var attempt = 1; ; attempt++)
        {
            ThrowIfClosed();
            try
            {
                return await Task.Run(
                    () =>
                    {
                        using var connection = _source.OpenConnection();
                        return read(connection);
                    },
                    cancellationToken).ConfigureAwait(false);
            }
            catch (Exception error) when (cancellationToken.IsCancellationRequested && PostgresErrors.IsOfDatabase(error))
            {
                throw new OperationCanceledException("The reading was cancelled.", error, cancellationToken);
            }
            catch (ObjectDisposedException) when (Volatile.Read(ref _disposed) != 0)
            {
                throw GroupWriter<IPromise>.Closed();
            }
            catch (Exception error) when (PostgresErrors.IsOfDatabase(error))
            {
                if (attempt > 1 || !mayRepeat() || !PostgresErrors.IsOfConnection(error))
                {
                    throw new StoreUnavailableException("The store cannot be read: " + error.Message, error);
                }

                // One connection of the pool is dead; its neighbours may be too.
                _source.Clear();
            }
        }
    }

    /// <inheritdoc/>
    public DbTransaction BeginSnapshot(DbConnection connection) => connection.BeginTransaction(IsolationLevel.RepeatableRead);

    /// <inheritdoc/>
    public Task<T> ImportAsync<T>(Func<DbConnection, IRowSink, T> fill, CancellationToken cancellationToken)
        where T : class =>
        ReadAsync(
            connection =>
            {
                using var transaction = connection.BeginTransaction();
                var sink = new PostgresSink(connection, transaction, this);
                using (var durable = new NpgsqlCommand("SET LOCAL synchronous_commit = on", connection))
                {
                    durable.ExecuteNonQuery();
                }

                var outcome = fill(connection, sink);
                sink.ContinueSequence();
                transaction.Commit();
                return outcome;
            },
            () => false,
            cancellationToken);

    /// <inheritdoc/>
    public async Task<AppendOutcome> AppendAsync(ReadingEntry entry, WriteLane? lane, CancellationToken cancellationToken)
    {
        ThrowIfClosed();
        var pending = new PendingReading(entry) { Lane = lane };
        var outcome = await _writer.WriteAsync(pending, pending.Task, cancellationToken).ConfigureAwait(false);
        Tell();
        return outcome;
    }

    /// <inheritdoc/>
    public async Task SettleAsync(string line, long sequence, byte[] signals)
    {
        ThrowIfClosed();
        var pending = new PendingSignals(line, sequence, signals);
        await _writer.WriteAsync(pending, pending.Task, CancellationToken.None).ConfigureAwait(false);
        Tell();
    }

    /// <inheritdoc/>
    public Task<StoreVersionOutcome> StoreAsync(VersionedKind kind, VersionedEntry entry, CancellationToken cancellationToken)
    {
        ThrowIfClosed();
        var pending = new PendingDocument(kind, entry);
        return _writer.WriteAsync(pending, pending.Task, cancellationToken);
    }

    /// <inheritdoc/>
    public async Task CheckAsync(CancellationToken cancellationToken)
    {
        ThrowIfClosed();
        _writer.ThrowIfFailing();
        var isReadOnly = await ReadAsync(
            connection =>
            {
                using var command = Commands.Make(
                    connection, "SELECT current_setting('transaction_read_only') = 'on', EXISTS (SELECT 1 FROM reading_id)");
                using var rows = command.ExecuteReader();
                return rows.Read() && rows.GetBoolean(0);
            },
            cancellationToken).ConfigureAwait(false);
        if (isReadOnly)
        {
            throw new StoreUnavailableException("The database takes no writes: it is a standby, or was set to read only.");
        }
    }

    /// <summary>Commits what is in flight, then closes every connection.</summary>
    public async ValueTask DisposeAsync()
    {
        if (Interlocked.Exchange(ref _disposed, 1) == 0)
        {
            await _writer.DisposeAsync().ConfigureAwait(false);
            await _notices.DisposeAsync().ConfigureAwait(false);
            await _source.DisposeAsync().ConfigureAwait(false);
        }
    }

    private void Tell()
    {
        Changes.Tell();
        _notices.Send();
    }

    // Before anybody writes: a record that is written has its link from then on.
    private void Adopt(NpgsqlConnection connection, CancellationToken cancellationToken)
    {
        bool isUnfinished;
        do
        {
            cancellationToken.ThrowIfCancellationRequested();
            using var transaction = connection.BeginTransaction();
            using (var command = Commands.Make(connection, $"SELECT pg_advisory_xact_lock({AdvisoryLocks.Schema})"))
            {
                command.ExecuteNonQuery();
            }

            AuditQueries.Prepare(connection);
            isUnfinished = ChainAdoption.Continue(connection, transaction, AuditQueries);
            transaction.Commit();
        }
        while (isUnfinished);
    }

    private void ThrowIfClosed()
    {
        if (Volatile.Read(ref _disposed) != 0)
        {
            throw GroupWriter<IPromise>.Closed();
        }
    }
}
