using System.Globalization;
using System.Runtime.CompilerServices;

using ClearView.Records.Exchange;
using ClearView.Records.Model;
using ClearView.Records.Retention;
using ClearView.Records.Sql;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Takes months out of a database once they are exported.</summary>
/// <remarks>
/// Each month is copied into a store file of its own as of one moment, compared row for row, verified once more when the file is
/// closed, and brought to the disk with its name. Only then its parts of the tables are detached, under locks that keep every writer
/// out, and only where no reading was added since that moment. The parts move to the schema "clearview_retired"; nothing is dropped.
/// </remarks>
public static class MonthRetirement
{
    private const int MostAttempts = 3;

    /// <summary>Retires every whole month before another one, the earliest first. Months without readings are passed over.</summary>
    /// <param name="store">The store; servers may go on using it.</param>
    /// <param name="before">The first month that stays; not later than the current one.</param>
    /// <param name="folder">Folder of the exports; it must exist, and hold no export of the same name.</param>
    /// <param name="by">Who retires them.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="cancellationToken">Stops it; what was retired stays so.</param>
    /// <returns>Each month as soon as it is retired.</returns>
    /// <exception cref="RetentionException">A month cannot be retired; it is in the store as it was.</exception>
    /// <exception cref="StoreCopyException">The export is not the same as the month; it was dropped.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read or written now.</exception>
    public static IAsyncEnumerable<RetiredMonth> RunAsync(
        PostgresStore store, MonthSpan before, string folder, string by, TimeProvider clock, CancellationToken cancellationToken) =>
        RunAsync(store, before, folder, ExportFlush.Folder, by, clock, cancellationToken);

    /// <summary>The same, with another way to make the names in a folder durable.</summary>
    internal static async IAsyncEnumerable<RetiredMonth> RunAsync(
        PostgresStore store, MonthSpan before, string folder, Action<string> flushFolder, string by, TimeProvider clock,
        [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(clock);
        ArgumentException.ThrowIfNullOrWhiteSpace(by);
        var current = MonthSpan.Of(clock.GetUtcNow());
        if (before > current)
        {
            throw new RetentionException($"Only whole months can be retired: name {current} or an earlier month, not {before}.");
        }

        var database = (PostgresDatabase)((IStoreBehind)store).Database;
        foreach (var month in await database.ReadAsync(connection => FilledMonths(connection, before), () => true, cancellationToken).ConfigureAwait(false))
        {
            cancellationToken.ThrowIfCancellationRequested();
            yield return await RetireAsync(database, month, folder, flushFolder, by, clock, cancellationToken).ConfigureAwait(false);
        }
    }

    private static List<MonthSpan> FilledMonths(NpgsqlConnection connection, MonthSpan before)
    {
        List<MonthSpan> months = [];
        using (var command = Commands.Make(
            connection, "SELECT relname::text FROM pg_inherits JOIN pg_class ON pg_class.oid = inhrelid WHERE inhparent = 'clearview.reading'::regclass"))
        {
            using var rows = command.ExecuteReader();
            while (rows.Read())
            {
                if (MonthSpan.TryParse(rows.GetString(0)["reading_".Length..].Replace('_', '-'), out var month) && month < before)
                {
                    months.Add(month);
                }
            }
        }

        return [.. months.Where(month => HasReadings(connection, month)).Order()];
    }

    private static bool HasReadings(NpgsqlConnection connection, MonthSpan month)
    {
        using var command = Commands.Make(connection, "SELECT EXISTS (SELECT 1 FROM reading WHERE measured_at >= @first AND measured_at < @next)");
        command.Add("@first", month.FirstTick);
        command.Add("@next", month.NextTick);
        return (bool)command.ExecuteScalar()!;
    }

    private static async Task<RetiredMonth> RetireAsync(
        PostgresDatabase database, MonthSpan month, string folder, Action<string> flushFolder, string by, TimeProvider clock, CancellationToken cancellationToken)
    {
        for (var attempt = 1; attempt <= MostAttempts; attempt++)
        {
            var export = await MonthExport.WriteAsync(database, month, folder, flushFolder, clock, cancellationToken).ConfigureAwait(false);
            var retired = new RetiredMonth(
                month.ToString(), export.Part, month.FirstTick, month.NextTick, export.AfterSequence, 0, export.Contents.Readings, export.Contents.Values,
                export.Contents.Sha256, Path.GetFileName(export.Path), clock.GetUtcNow().ToUniversalTime(), by);

            // Not cancelled any more: whether the month is in the store would be open.
            var detached = await database.ReadAsync(
                connection => MonthDetachment.RunAsync(connection, month, export, retired).GetAwaiter().GetResult(),
                () => false,
                CancellationToken.None).ConfigureAwait(false);
            if (detached is not null)
            {
                return detached;
            }

            File.Delete(export.Path);
        }

        throw new RetentionException(string.Create(
            CultureInfo.InvariantCulture,
            $"{month} is still in the store: in {MostAttempts} attempts readings of it were posted, or a query or backup held the tables, before it could be detached. Try again at a quieter time."));
    }
}
