using System.Data.Common;

using ClearView.Records.Audit;
using ClearView.Records.Model;
using ClearView.Records.Schema;
using ClearView.Records.Sql;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>A store file that is opened to look at its chains, beside a server or without one. The file stays as it is, byte for byte.</summary>
/// <remarks>Reading beside a writer needs the index of the write-ahead log: SQLite may leave FILE-shm and an empty FILE-wal beside the file.</remarks>
public sealed class AuditedStoreFile : IAuditedStore
{
    private AuditedStoreFile(string connectionString) => Audit = new SqlAuditStore(new ReadFile(connectionString));

    /// <inheritdoc/>
    public IAuditStore Audit { get; }

    /// <summary>Opens a file.</summary>
    /// <param name="path">The file.</param>
    /// <returns>The store.</returns>
    /// <exception cref="StoreFormatException">There is no such file, it is no store, or it is of another schema; the message says how to bring it forward.</exception>
    /// <exception cref="StoreUnavailableException">The file cannot be read.</exception>
    public static AuditedStoreFile Open(string path)
    {
        ArgumentException.ThrowIfNullOrEmpty(path);
        var file = Path.GetFullPath(path);
        if (!File.Exists(file))
        {
            throw new StoreFormatException($"{path} does not exist.");
        }

        var connectionString = StoreFile.ConnectionString(file, SqliteOpenMode.ReadOnly, pooling: false);
        try
        {
            using var connection = new SqliteConnection(connectionString);
            connection.Open();
            SchemaMigrator.RequireNewest(connection, Migration.OfSqlite.Length);
        }
        catch (SqliteException error)
        {
            throw StoreFile.NotOpened(file, error);
        }

        return new AuditedStoreFile(connectionString);
    }

    /// <summary>Closes the file.</summary>
    /// <returns>A completed task: every reading has closed its connection itself.</returns>
    public ValueTask DisposeAsync() => ValueTask.CompletedTask;

    private sealed class ReadFile(string connectionString) : IReadDatabase
    {
        public IAuditQueries AuditQueries { get; } = new SqliteAuditQueries();

        public DbTransaction BeginSnapshot(DbConnection connection) => ((SqliteConnection)connection).BeginTransaction(deferred: true);

        public async Task<T> ReadAsync<T>(Func<DbConnection, T> read, CancellationToken cancellationToken)
        {
            try
            {
                return await Task.Run(
                    () =>
                    {
                        using var connection = new SqliteConnection(connectionString);
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
}
