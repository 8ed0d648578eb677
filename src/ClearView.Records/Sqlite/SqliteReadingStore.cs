using System.Collections.Immutable;

using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>The embedded store: one SQLite file beside its write-ahead log.</summary>
/// <remarks>
/// <para>Safe for concurrent use. One writer commits in groups; readers run beside it and see whole readings only.</para>
/// <para>A reading is acknowledged when the log that holds it has been flushed to the disk (synchronous = FULL).</para>
/// </remarks>
public sealed class SqliteReadingStore : IReadingStore, IAsyncDisposable
{
    private const int BusyTimeoutSeconds = 5;

    private readonly string _path;
    private readonly string _readerConnectionString;
    private readonly ReadingWriter _writer;
    private int _disposed;

    private SqliteReadingStore(string path, SqliteConnection writerConnection, TimeProvider clock)
    {
        _path = path;
        _readerConnectionString = ConnectionString(path, SqliteOpenMode.ReadOnly, pooling: true);
        _writer = new ReadingWriter(writerConnection, clock);
    }

    /// <summary>Opens the store of a file, and creates or upgrades the file where needed.</summary>
    /// <param name="path">The file. Its folder must exist.</param>
    /// <param name="clock">The clock of the time of recording.</param>
    /// <returns>The store; disposing it finishes what is in flight.</returns>
    /// <exception cref="StoreFormatException">The file is something else, or a newer version wrote it.</exception>
    /// <exception cref="StoreUnavailableException">The file cannot be opened for writing.</exception>
    public static SqliteReadingStore Open(string path, TimeProvider clock) => Open(path, clock, Migration.All);

    /// <inheritdoc/>
    public Task<AppendOutcome> AppendAsync(ReadingEntry entry, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(entry);
        ObjectDisposedException.ThrowIf(Volatile.Read(ref _disposed) != 0, this);
        if (entry.Values.FirstOrDefault(value => !double.IsFinite(value.Value)) is { Measurand: { } measurand })
        {
            throw new ArgumentException($"The value of \"{measurand}\" is not finite.", nameof(entry));
        }

        return _writer.AppendAsync(entry, cancellationToken);
    }

    /// <inheritdoc/>
    public Task<StoredReading?> FindAsync(Guid id, CancellationToken cancellationToken) =>
        ReadAsync(
            connection =>
            {
                using var find = ReadingRows.FindCommand(connection);
                using var values = ReadingRows.ValuesCommand(connection);
                find.Parameters[0].Value = id.ToByteArray(bigEndian: true);
                using var rows = find.ExecuteReader();
                return rows.Read() ? ReadingRows.Read(rows, values) : null;
            },
            cancellationToken);

    /// <inheritdoc/>
    public Task<ReadingPage> ListAsync(ReadingQuery query, CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(query);
        ArgumentOutOfRangeException.ThrowIfLessThan(query.PageSize, 1, nameof(query));
        ArgumentOutOfRangeException.ThrowIfLessThan(query.MaxPayloadBytes, 1, nameof(query));
        return ReadAsync(connection => List(connection, query, cancellationToken), cancellationToken);
    }

    /// <inheritdoc/>
    public async Task CheckAsync(CancellationToken cancellationToken)
    {
        // A file removed under an open store would take readings and lose them at the next start.
        if (!File.Exists(_path))
        {
            throw new StoreUnavailableException($"The store file {_path} is gone.");
        }

        await ReadAsync(
            connection =>
            {
                using var command = new SqliteCommand("SELECT EXISTS (SELECT 1 FROM reading)", connection);
                return command.ExecuteScalar();
            },
            cancellationToken).ConfigureAwait(false);
    }

    /// <summary>Commits the readings in flight, then closes the file.</summary>
    /// <returns>A task that completes when the file is closed.</returns>
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

    /// <summary>Opens a store with other migrations than this version's own.</summary>
    internal static SqliteReadingStore Open(string path, TimeProvider clock, ImmutableArray<Migration> migrations)
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
            return new SqliteReadingStore(file, connection, clock);
        }
        catch (SqliteException error)
        {
            connection.Dispose();
            const int notADatabase = 26;
            throw error.SqliteErrorCode == notADatabase
                ? new StoreFormatException($"{file} is not an SQLite database. Name another file.", error)
                : new StoreUnavailableException($"The store file {file} cannot be opened: {error.Message}", error);
        }
        catch
        {
            connection.Dispose();
            throw;
        }
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

    private static ReadingPage List(SqliteConnection connection, ReadingQuery query, CancellationToken cancellationToken)
    {
        using var list = ReadingRows.ListCommand(connection, query);
        using var values = ReadingRows.ValuesCommand(connection);
        using var rows = list.ExecuteReader();
        var readings = ImmutableArray.CreateBuilder<StoredReading>();
        var bytes = 0L;
        while (rows.Read())
        {
            if (readings.Count == query.PageSize || bytes >= query.MaxPayloadBytes)
            {
                return new ReadingPage(readings.ToImmutable(), HasMore: true);
            }

            cancellationToken.ThrowIfCancellationRequested();
            var reading = ReadingRows.Read(rows, values);
            bytes += reading.Entry.PayloadLength;
            readings.Add(reading);
        }

        return new ReadingPage(readings.ToImmutable(), HasMore: false);
    }

    private static string ConnectionString(string path, SqliteOpenMode mode, bool pooling) =>
        new SqliteConnectionStringBuilder
        {
            DataSource = path,
            Mode = mode,
            Pooling = pooling,
            DefaultTimeout = BusyTimeoutSeconds,
        }.ToString();

    // SQLite works synchronously; a read must not hold up the caller's thread.
    private async Task<T> ReadAsync<T>(Func<SqliteConnection, T> read, CancellationToken cancellationToken)
    {
        ObjectDisposedException.ThrowIf(Volatile.Read(ref _disposed) != 0, this);
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
}
