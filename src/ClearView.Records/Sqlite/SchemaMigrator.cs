using System.Collections.Immutable;
using System.Globalization;

using ClearView.Records.Model;
using ClearView.Records.Schema;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Brings a store file to the schema of this version, one transaction per step.</summary>
internal static class SchemaMigrator
{
    /// <summary>Marks the file as ours in its header ("CLRV").</summary>
    public const int ApplicationId = 0x434C5256;

    /// <summary>Applies the steps that the file lacks.</summary>
    /// <param name="connection">An open connection that may write.</param>
    /// <param name="migrations">Every step, in order.</param>
    /// <exception cref="StoreFormatException">The file is not ours, or is of a newer schema.</exception>
    public static void Migrate(SqliteConnection connection, ImmutableArray<Migration> migrations)
    {
        while (true)
        {
            // The version is read under the write lock, so that two servers starting at once do not both take a step.
            using var transaction = connection.BeginTransaction(deferred: false);
            var version = CheckedVersion(connection, transaction, migrations.Length);
            if (version == migrations.Length)
            {
                return;
            }

            Execute(connection, transaction, migrations[version].Sql);
            Execute(connection, transaction, string.Create(CultureInfo.InvariantCulture, $"PRAGMA application_id = {ApplicationId}"));
            Execute(connection, transaction, string.Create(CultureInfo.InvariantCulture, $"PRAGMA user_version = {version + 1}"));
            transaction.Commit();
        }
    }

    /// <summary>Makes sure that a file has the newest schema, without changing it.</summary>
    /// <param name="connection">An open connection.</param>
    /// <param name="newest">Version of the newest schema.</param>
    /// <exception cref="StoreFormatException">The file is not ours, or is of another schema; the message says how to bring it forward.</exception>
    public static void RequireNewest(SqliteConnection connection, int newest)
    {
        using var transaction = connection.BeginTransaction(deferred: true);
        if (Scalar(connection, transaction, "SELECT count(*) FROM sqlite_schema") == 0)
        {
            throw new StoreFormatException($"{connection.DataSource} is empty, not a ClearView store. Name another file.");
        }

        var version = CheckedVersion(connection, transaction, newest);
        if (version < newest)
        {
            throw SchemaForward.IsNeeded(connection.DataSource, version, newest);
        }

        if (Scalar(connection, transaction, "SELECT count(*) FROM adoption") > 0)
        {
            throw SchemaForward.IsUnfinished(connection.DataSource);
        }
    }

    private static int CheckedVersion(SqliteConnection connection, SqliteTransaction transaction, int newest)
    {
        var file = connection.DataSource;
        var applicationId = Scalar(connection, transaction, "PRAGMA application_id");
        if (applicationId != ApplicationId)
        {
            var isEmpty = applicationId == 0 && Scalar(connection, transaction, "SELECT count(*) FROM sqlite_schema") == 0;
            return isEmpty
                ? 0
                : throw new StoreFormatException(
                    $"{file} is an SQLite database of another application, not a ClearView store. Name another file.");
        }

        var version = Scalar(connection, transaction, "PRAGMA user_version");
        return version <= newest
            ? (int)version
            : throw new StoreFormatException(string.Create(
                CultureInfo.InvariantCulture,
                $"{file} has schema version {version}, written by a newer ClearView; this version knows schemas up to {newest}. Install the newer version."));
    }

    private static long Scalar(SqliteConnection connection, SqliteTransaction transaction, string sql)
    {
        using var command = new SqliteCommand(sql, connection, transaction);
        return Convert.ToInt64(command.ExecuteScalar(), CultureInfo.InvariantCulture);
    }

    private static void Execute(SqliteConnection connection, SqliteTransaction transaction, string sql)
    {
        using var command = new SqliteCommand(sql, connection, transaction);
        command.ExecuteNonQuery();
    }
}
