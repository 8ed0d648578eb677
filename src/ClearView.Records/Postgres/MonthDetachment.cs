using System.Globalization;

using ClearView.Records.Audit;
using ClearView.Records.Retention;
using ClearView.Records.Sql;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Takes an exported month out of the tables.</summary>
internal static class MonthDetachment
{
    // Posting waits behind the locks, and they behind whoever reads the tables: rather give up than let the line wait for a backup.
    // In the order in which writers take them, so that nobody waits crosswise.
    private static readonly string Locks =
        $"""
        SET LOCAL lock_timeout = '5s';
        SET LOCAL synchronous_commit = on;
        SELECT pg_advisory_xact_lock({AdvisoryLocks.Months});
        LOCK TABLE reading_id IN EXCLUSIVE MODE;
        LOCK TABLE reading, series_value IN ACCESS EXCLUSIVE MODE;
        LOCK TABLE reading_signal IN EXCLUSIVE MODE;
        """;

    /// <summary>Detaches the month and records it, in one transaction.</summary>
    /// <param name="connection">A connection of its own, outside of a transaction.</param>
    /// <param name="month">The month.</param>
    /// <param name="export">Its export.</param>
    /// <param name="planned">What to record; its last sequence is not known yet.</param>
    /// <returns>What was recorded; <see langword="null"/> where readings were added since the export, or the locks could not be had.</returns>
    public static async Task<RetiredMonth?> RunAsync(NpgsqlConnection connection, MonthSpan month, MonthExport export, RetiredMonth planned)
    {
        var chain = await ServerChain.ClaimAsync(connection).ConfigureAwait(false);
        try
        {
            var transaction = await connection.BeginTransactionAsync().ConfigureAwait(false);
            await using var ofMonth = transaction.ConfigureAwait(false);
            Execute(connection, Locks);

            // Nobody writes now. Readings are only ever added, so that an equal number is the same readings.
            if (MonthExport.Added(connection, month, export.Floor) != export.Behind || IsRetired(connection, transaction, planned))
            {
                return null;
            }

            var retired = planned with { LastSequence = LastSequence(connection) };
            var suffix = export.Part == 1 ? "" : string.Create(CultureInfo.InvariantCulture, $"_{export.Part}");
            using (var retire = Commands.Make(connection, "SELECT retire_month(@month, @suffix)"))
            {
                retire.Add("@month", month.PartName);
                retire.Add("@suffix", suffix);
                retire.ExecuteNonQuery();
            }

            RetiredRows.Insert(connection, transaction, retired);
            chain.Begin();
            await new RowCopy(connection).LinksAsync(chain.Next([(RetiredRows.KeyOf(retired), RecordHash.Of(retired))], transaction)).ConfigureAwait(false);
            await transaction.CommitAsync().ConfigureAwait(false);
            return retired;
        }
        catch (PostgresException error) when (error.SqlState == PostgresErrorCodes.LockNotAvailable || PostgresErrors.IsConflict(error))
        {
            return null;
        }
        finally
        {
            // The connection goes back to the pool, and would keep the lock of its chain.
            if (connection.State == System.Data.ConnectionState.Open)
            {
                Execute(connection, "SELECT pg_advisory_unlock_all()");
            }
        }
    }

    // Whoever retires the same month at the same time has the same export to show.
    private static bool IsRetired(NpgsqlConnection connection, NpgsqlTransaction transaction, RetiredMonth planned) =>
        RetiredRows.All(connection, transaction).Exists(retired => retired.Month == planned.Month && retired.Part >= planned.Part);

    private static long LastSequence(NpgsqlConnection connection)
    {
        using var command = Commands.Make(connection, "SELECT max(sequence) FROM reading_id");
        return (long)command.ExecuteScalar()!;
    }

    private static void Execute(NpgsqlConnection connection, string sql)
    {
        using var command = Commands.Make(connection, sql);
        command.ExecuteNonQuery();
    }
}
