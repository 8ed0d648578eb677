using System.Collections.Immutable;
using System.Globalization;

using ClearView.Records.Model;
using ClearView.Records.Schema;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Brings a database to the schema of this version, one transaction per step.</summary>
internal static class PostgresMigrator
{
    /// <summary>Schema that holds every table of the store.</summary>
    public const string SchemaName = "clearview";

    private const int OldestServer = 15;

    /// <summary>Applies the steps that the database lacks.</summary>
    /// <param name="connection">An open connection that may create.</param>
    /// <param name="migrations">Every step, in order.</param>
    /// <param name="cancellationToken">Stops between steps.</param>
    /// <exception cref="StoreFormatException">The database is too old, not in UTF-8, of another use, or of a newer schema.</exception>
    public static async Task MigrateAsync(
        NpgsqlConnection connection, ImmutableArray<Migration> migrations, CancellationToken cancellationToken)
    {
        await CheckServerAsync(connection, cancellationToken).ConfigureAwait(false);
        while (true)
        {
            // The version is read under the lock, so that two servers starting at once do not both take a step.
            var transaction = await connection.BeginTransactionAsync(cancellationToken).ConfigureAwait(false);
            await using var ofStep = transaction.ConfigureAwait(false);
            await ExecuteAsync(connection, $"SELECT pg_advisory_xact_lock({AdvisoryLocks.Schema})", cancellationToken).ConfigureAwait(false);
            var version = await CheckedVersionAsync(connection, migrations.Length, cancellationToken).ConfigureAwait(false);
            if (version < migrations.Length)
            {
                await ExecuteAsync(connection, migrations[version].Sql, cancellationToken).ConfigureAwait(false);
                await ExecuteAsync(
                    connection,
                    string.Create(CultureInfo.InvariantCulture, $"INSERT INTO migration (version) VALUES ({version + 1})"),
                    cancellationToken).ConfigureAwait(false);
            }

            await transaction.CommitAsync(cancellationToken).ConfigureAwait(false);
            if (version + 1 >= migrations.Length)
            {
                return;
            }
        }
    }

    /// <summary>Makes sure that a database has the newest schema, without changing it.</summary>
    /// <param name="connection">An open connection.</param>
    /// <param name="newest">Version of the newest schema.</param>
    /// <param name="cancellationToken">Stops the look.</param>
    /// <exception cref="StoreFormatException">The database holds no store, or one of another schema; the message says how to bring it forward.</exception>
    public static async Task RequireNewestAsync(NpgsqlConnection connection, int newest, CancellationToken cancellationToken)
    {
        await CheckServerAsync(connection, cancellationToken).ConfigureAwait(false);
        if (!await HasStoreAsync(connection, cancellationToken).ConfigureAwait(false))
        {
            throw new StoreFormatException($"The database {connection.Database} holds no ClearView store. Name another database.");
        }

        var version = await AppliedVersionAsync(connection, newest, cancellationToken).ConfigureAwait(false);
        if (version < newest)
        {
            throw SchemaForward.IsNeeded($"The database {connection.Database}", version, newest);
        }

        if (await ScalarAsync(connection, $"SELECT count(*) FROM {SchemaName}.adoption", cancellationToken).ConfigureAwait(false) is not 0L)
        {
            throw SchemaForward.IsUnfinished($"The database {connection.Database}");
        }
    }

    private static async Task CheckServerAsync(NpgsqlConnection connection, CancellationToken cancellationToken)
    {
        if (connection.PostgreSqlVersion.Major < OldestServer)
        {
            throw new StoreFormatException($"The server is PostgreSQL {connection.PostgreSqlVersion}; {OldestServer} or newer is needed.");
        }

        if (await ScalarAsync(connection, "SHOW server_encoding", cancellationToken).ConfigureAwait(false) is not "UTF8")
        {
            throw new StoreFormatException($"The database {connection.Database} is not in UTF-8. Create one with ENCODING 'UTF8' TEMPLATE template0.");
        }
    }

    private static async Task<int> CheckedVersionAsync(NpgsqlConnection connection, int newest, CancellationToken cancellationToken)
    {
        if (!await HasStoreAsync(connection, cancellationToken).ConfigureAwait(false))
        {
            const string tables = $"SELECT count(*) FROM pg_class WHERE relnamespace = to_regnamespace('{SchemaName}')";
            if (await ScalarAsync(connection, tables, cancellationToken).ConfigureAwait(false) is not 0L)
            {
                throw new StoreFormatException(
                    $"The schema \"{SchemaName}\" of the database {connection.Database} holds tables of another application. Name another database.");
            }

            const string create = $"CREATE SCHEMA IF NOT EXISTS {SchemaName}; CREATE TABLE {SchemaName}.migration (version integer PRIMARY KEY, applied_at timestamptz NOT NULL DEFAULT now())";
            await ExecuteAsync(connection, create, cancellationToken).ConfigureAwait(false);
        }

        return await AppliedVersionAsync(connection, newest, cancellationToken).ConfigureAwait(false);
    }

    private static async Task<bool> HasStoreAsync(NpgsqlConnection connection, CancellationToken cancellationToken) =>
        await ScalarAsync(connection, $"SELECT to_regclass('{SchemaName}.migration') IS NOT NULL", cancellationToken).ConfigureAwait(false) is true;

    private static async Task<int> AppliedVersionAsync(NpgsqlConnection connection, int newest, CancellationToken cancellationToken)
    {
        const string newestApplied = $"SELECT coalesce(max(version), 0) FROM {SchemaName}.migration";
        var version = (int)(await ScalarAsync(connection, newestApplied, cancellationToken).ConfigureAwait(false))!;
        return version <= newest
            ? version
            : throw new StoreFormatException(string.Create(
                CultureInfo.InvariantCulture,
                $"The database {connection.Database} has schema version {version}, written by a newer ClearView; this version knows schemas up to {newest}. Install the newer version."));
    }

    // Statements are our own constants.
#pragma warning disable CA2100
    private static async Task<object?> ScalarAsync(NpgsqlConnection connection, string sql, CancellationToken cancellationToken)
    {
        var command = new NpgsqlCommand(sql, connection);
        await using var ofCall = command.ConfigureAwait(false);
        return await command.ExecuteScalarAsync(cancellationToken).ConfigureAwait(false);
    }

    private static async Task ExecuteAsync(NpgsqlConnection connection, string sql, CancellationToken cancellationToken)
    {
        var command = new NpgsqlCommand(sql, connection);
        await using var ofCall = command.ConfigureAwait(false);
        await command.ExecuteNonQueryAsync(cancellationToken).ConfigureAwait(false);
    }
#pragma warning restore CA2100
}
