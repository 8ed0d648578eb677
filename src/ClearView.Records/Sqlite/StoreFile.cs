using System.Collections.Immutable;
using System.Data.Common;

using ClearView.Records.Audit;
using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Schema;
using ClearView.Records.Sql;
using ClearView.Records.Writing;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>The file behind a store: its one writer, and connections for those who read beside it.</summary>
internal sealed class StoreFile : IStoreDatabase, IAsyncDisposable
{
    private const int BusyTimeoutSeconds = 5;

    private readonly string _path;
    private readonly string _readerConnectionString;
    private readonly SqliteCommitter _committer;
    private readonly GroupWriter<IPendingWrite> _writer;
    private int _disposed;

    private StoreFile(string path, SqliteConnection writerConnection, TimeProvider clock)
    {
        _path = path;
        _readerConnectionString = ConnectionString(path, SqliteOpenMode.ReadOnly, pooling: true);
        _committer = new SqliteCommitter(writerConnection, clock);
        _writer = new GroupWriter<IPendingWrite>(_committer, clock);
    }

    /// <inheritdoc/>
    public string FindByIdCondition => "id = @id";

    // Another process may hold the same file for a while, as when a server is exchanged; a poll finds what it stored.

    /// <inheritdoc/>
    public bool IsShared => false;

    /// <inheritdoc/>
    public Changes Changes { get; } = new();

    // The key yields the order; the index of a filter would need sorting, and the stretch is short.

    /// <inheritdoc/>
    public string SelectRecorded(string filters) =>
        ReadingRows.SelectReading + " NOT INDEXED WHERE reading.sequence > @after AND reading.sequence <= @through" + filters
        + " ORDER BY reading.sequence LIMIT @limit";

    /// <inheritdoc/>
    public long LastListable(DbConnection connection, bool beforeSignals)
    {
        using var command = Commands.Make(connection, "SELECT coalesce(max(sequence), 0) FROM reading");
        var last = (long)command.ExecuteScalar()!;

        // Looked at after the last sequence: whoever is not in flight any more has its signals where rows are read next.
        return beforeSignals ? last : Math.Min(last, _committer.Awaited.Floor);
    }

    /// <inheritdoc/>
    public bool MayHoldOthers(long after, long before) => false;

    /// <inheritdoc/>
    public OthersPage ListOthers(DbConnection connection, OthersQuery query) => new([], query.After, [], IsBroken: false);

    /// <inheritdoc/>
    public IAuditQueries AuditQueries { get; } = new SqliteAuditQueries();

    /// <summary>Opens a file, and creates or upgrades it where needed.</summary>
    /// <exception cref="StoreFormatException">The file is something else, or a newer version wrote it.</exception>
    /// <exception cref="StoreUnavailableException">The file cannot be opened for writing.</exception>
    public static StoreFile Open(string path, TimeProvider clock, ImmutableArray<Migration> migrations)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        ArgumentNullException.ThrowIfNull(clock);
        var file = Path.GetFullPath(path);
        var connection = new SqliteConnection(ConnectionString(file, SqliteOpenMode.ReadWriteCreate, pooling: false));
        try
        {
            connection.Open();
            SchemaMigrator.Migrate(connection, migrations);
            Configure(connection);
            var opened = new StoreFile(file, connection, clock);
            if (migrations.Length == Migration.OfSqlite.Length)
            {
                opened.Adopt(connection);
            }

            return opened;
        }
        catch (SqliteException error)
        {
            connection.Dispose();
            throw NotOpened(file, error);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
    }

    /// <inheritdoc/>
    public object IdValue(Guid id) => id.ToByteArray(bigEndian: true);

    /// <inheritdoc/>
    public DbTransaction BeginSnapshot(DbConnection connection) => ((SqliteConnection)connection).BeginTransaction(deferred: true);

    /// <inheritdoc/>
    public Task<T> ImportAsync<T>(Func<DbConnection, IRowSink, T> fill, CancellationToken cancellationToken)
        where T : class =>
        // Waited for to its end: a wait that is given up leaves the writer reading from a source that its owner takes away.
        WriteAsync((transaction, _) => fill(transaction.Connection!, new SqliteSink(_committer.Readings, _committer.AwaitedRows, _committer.Links, transaction, this)), CancellationToken.None);

    /// <inheritdoc/>
    public async Task<AppendOutcome> AppendAsync(ReadingEntry entry, WriteLane? lane, CancellationToken cancellationToken)
    {
        var outcome = await WriteAsync(
            (transaction, now) =>
            {
                var inserted = _committer.Readings.Insert(entry, now, transaction, this);
                if (entry.AwaitsSignals && inserted is { AlreadyStored: false, Refusal: null })
                {
                    _committer.AwaitedRows.Insert(inserted.Reading.Sequence, transaction);
                    _committer.Awaited.Add(inserted.Reading.Sequence);
                }

                return inserted;
            },
            cancellationToken,
            lane).ConfigureAwait(false);
        Changes.Tell();
        return outcome;
    }

    /// <inheritdoc/>
    public async Task SettleAsync(string line, long sequence, byte[] signals)
    {
        var isStored = false;
        try
        {
            if (signals.Length > 0)
            {
                await WriteAsync(
                    (transaction, _) =>
                    {
                        if (SignalRows.Insert(transaction.Connection!, transaction, line, sequence, signals))
                        {
                            _committer.Links.Append(RecordKey.Signals(sequence), RecordHash.OfSignals(line, sequence, signals), transaction);
                        }

                        return signals;
                    },
                    CancellationToken.None).ConfigureAwait(false);
            }

            isStored = true;
        }
        finally
        {
            _committer.Awaited.Settle(sequence, isStored);
            Changes.Tell();
        }
    }

    /// <inheritdoc/>
    public Task<StoreVersionOutcome> StoreAsync(VersionedKind kind, VersionedEntry entry, CancellationToken cancellationToken) =>
        WriteAsync(
            // The transaction holds the write lock from its start, so that nobody else can take the version in between.
            (transaction, now) =>
            {
                var outcome = VersionRows.InsertNext(transaction.Connection!, transaction, kind, entry, now);
                if (!outcome.AlreadyStored)
                {
                    _committer.Links.Append(RecordHash.KeyOf(kind, outcome.Version), RecordHash.Of(kind, outcome.Version), transaction);
                }

                return outcome;
            },
            cancellationToken);

    /// <inheritdoc/>
    public async Task CheckAsync(CancellationToken cancellationToken)
    {
        ThrowIfClosed();

        // A file removed under an open store would take readings and lose them at the next start.
        if (!File.Exists(_path))
        {
            throw new StoreUnavailableException($"The store file {_path} is gone.");
        }

        _writer.ThrowIfFailing();
        await ReadAsync(
            connection =>
            {
                using var command = Commands.Make(connection, "SELECT EXISTS (SELECT 1 FROM reading)");
                return command.ExecuteScalar();
            },
            cancellationToken).ConfigureAwait(false);
    }

    /// <inheritdoc/>
    public Task<T> ReadAsync<T>(Func<DbConnection, T> read, CancellationToken cancellationToken) =>
        ReadSqliteAsync(read, cancellationToken);

    /// <summary>Reads beside the writer, on another thread: SQLite works synchronously.</summary>
    public async Task<T> ReadSqliteAsync<T>(Func<SqliteConnection, T> read, CancellationToken cancellationToken)
    {
        ThrowIfClosed();
        try
        {
            return await Task.Run(
                () =>
                {
                    using var connection = new SqliteConnection(_readerConnectionString);
                    connection.Open();
                    return read(connection);
                },
                cancellationToken).ConfigureAwait(false);
        }
        catch (SqliteException error)
        {
            throw new StoreUnavailableException("The store cannot be read: " + error.Message, error);
        }
    }

    /// <summary>Commits what is in flight, then closes the file.</summary>
    public async ValueTask DisposeAsync()
    {
        if (Interlocked.Exchange(ref _disposed, 1) == 0)
        {
            // Readers first: the last connection to close folds the log into the file, and only a writer can.
            using (var readers = new SqliteConnection(_readerConnectionString))
            {
                SqliteConnection.ClearPool(readers);
            }

            await _writer.DisposeAsync().ConfigureAwait(false);
        }
    }

    private Task<TOutcome> WriteAsync<TOutcome>(
        Func<SqliteTransaction, DateTimeOffset, TOutcome> write, CancellationToken cancellationToken, WriteLane? lane = null)
        where TOutcome : class
    {
        ThrowIfClosed();
        var pending = new PendingWrite<TOutcome>(write) { Lane = lane };
        return _writer.WriteAsync(pending, pending.Task, cancellationToken);
    }

    // Before anybody writes: a record that is written has its link from then on.
    private void Adopt(SqliteConnection connection)
    {
        bool isUnfinished;
        do
        {
            using var transaction = connection.BeginTransaction(deferred: false);
            isUnfinished = ChainAdoption.Continue(connection, transaction, AuditQueries);
            transaction.Commit();
        }
        while (isUnfinished);
    }

    private static void Configure(SqliteConnection connection)
    {
        using var command = connection.CreateCommand();
        command.CommandText =
            """
            PRAGMA journal_mode = WAL;
            PRAGMA synchronous = FULL;
            PRAGMA foreign_keys = ON;
            PRAGMA busy_timeout = 5000;
            """;
        command.ExecuteNonQuery();
    }

    /// <summary>What an error at opening means.</summary>
    public static Exception NotOpened(string file, SqliteException error)
    {
        const int notADatabase = 26;
        return error.SqliteErrorCode == notADatabase
            ? new StoreFormatException($"{file} is not an SQLite database. Name another file.", error)
            : new StoreUnavailableException($"The store file {file} cannot be opened: {error.Message}", error);
    }

    /// <summary>How a file is opened.</summary>
    public static string ConnectionString(string path, SqliteOpenMode mode, bool pooling) =>
        new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = mode,
            Pooling = pooling,
            DefaultTimeout = BusyTimeoutSeconds,
        }.ToString();

    private void ThrowIfClosed()
    {
        if (Volatile.Read(ref _disposed) != 0)
        {
            throw GroupWriter<IPendingWrite>.Closed();
        }
    }
}
