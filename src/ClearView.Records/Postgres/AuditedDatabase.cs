using System.Data;
using System.Data.Common;

using ClearView.Records.Audit;
using ClearView.Records.Model;
using ClearView.Records.Schema;
using ClearView.Records.Sql;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>A database that is opened to look at its chains, beside its servers. Every session of it is read-only.</summary>
public sealed class AuditedDatabase : IAuditedStore
{
    private readonly NpgsqlDataSource _source;

    private AuditedDatabase(NpgsqlDataSource source)
    {
        _source = source;
        Audit = new SqlAuditStore(new ReadDatabase(source));
    }

    /// <inheritdoc/>
    public IAuditStore Audit { get; }

    /// <summary>Opens a database.</summary>
    /// <param name="connectionString">A connection string of Npgsql; see <see cref="PostgresConnectionString.Parse"/>.</param>
    /// <param name="cancellationToken">Stops the opening.</param>
    /// <returns>The store.</returns>
    /// <exception cref="StoreFormatException">The database holds no store, or one of another schema; the message says how to bring it forward.</exception>
    /// <exception cref="StoreUnavailableException">The database cannot be opened.</exception>
    public static async Task<AuditedDatabase> OpenAsync(string connectionString, CancellationToken cancellationToken = default)
    {
        var source = NpgsqlDataSource.Create(PostgresConnectionString.CompleteReadOnly(connectionString));
        try
        {
            var connection = await source.OpenConnectionAsync(cancellationToken).ConfigureAwait(false);
            await using (connection.ConfigureAwait(false))
            {
                await PostgresMigrator.RequireNewestAsync(connection, Migration.OfPostgres.Length, cancellationToken).ConfigureAwait(false);
            }

            return new AuditedDatabase(source);
        }
        catch (Exception error) when (PostgresErrors.IsOfDatabase(error))
        {
            await source.DisposeAsync().ConfigureAwait(false);
            throw PostgresDatabase.NotOpened(connectionString, error);
        }
        catch
        {
            await source.DisposeAsync().ConfigureAwait(false);
            throw;
        }
    }

    /// <summary>Closes every connection.</summary>
    /// <returns>A task that completes when they are closed.</returns>
    public ValueTask DisposeAsync() => _source.DisposeAsync();

    private sealed class ReadDatabase(NpgsqlDataSource source) : IReadDatabase
    {
        public IAuditQueries AuditQueries { get; } = new PostgresAuditQueries();

        public DbTransaction BeginSnapshot(DbConnection connection) => connection.BeginTransaction(IsolationLevel.RepeatableRead);

        public async Task<T> ReadAsync<T>(Func<DbConnection, T> read, CancellationToken cancellationToken)
        {
            try
            {
                return await Task.Run(
                    () =>
                    {
                        using var connection = source.OpenConnection();
                        return read(connection);
                    },
                    cancellationToken).ConfigureAwait(false);
            }
            catch (Exception error) when (PostgresErrors.IsOfDatabase(error))
            {
                throw new StoreUnavailableException("The store cannot be read: " + error.Message, error);
            }
        }
    }
}
