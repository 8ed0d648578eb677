using System.Data.Common;
using System.Globalization;

using ClearView.Records.Exchange;
using ClearView.Records.Retention;
using ClearView.Records.Sql;
using ClearView.Records.Sqlite;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>The readings of a month in a store file of their own.</summary>
/// <param name="Path">The file.</param>
/// <param name="Part">Which retirement of the month this is, from 1.</param>
/// <param name="AfterSequence">Last sequence of the retirement before it; 0 for the first.</param>
/// <param name="Floor">Readings up to this sequence, and their signals, were complete when the export was made.</param>
/// <param name="Behind">Readings of the month behind the floor that are in it, and how many of them have signals.</param>
/// <param name="Contents">What the file holds.</param>
internal sealed record MonthExport(
    string Path, long Part, long AfterSequence, long Floor, (long Readings, long Signals) Behind, StoreContents Contents)
{
    /// <summary>Writes the file, compares it with the store as of one moment, verifies it once it is closed, and brings it to the disk.</summary>
    /// <param name="database">The database.</param>
    /// <param name="month">The month.</param>
    /// <param name="folder">Folder of the file.</param>
    /// <param name="flushFolder">Makes the names in the folder durable.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="cancellationToken">Stops it; then no file is left.</param>
    public static async Task<MonthExport> WriteAsync(
        PostgresDatabase database, MonthSpan month, string folder, Action<string> flushFolder, TimeProvider clock, CancellationToken cancellationToken)
    {
        MonthExport? partial = null;
        var unfinished = "";
        try
        {
            partial = await database.ReadAsync(
                connection =>
                {
                    // Before the moment of the export: what is complete here is in it.
                    var floor = RecordingFloors.Complete(connection, beforeSignals: false);
                    using var moment = database.BeginSnapshot(connection);
                    var earlier = RetiredRows.All(connection, moment).LastOrDefault(retired => retired.Month == month.ToString());
                    if (Awaits(connection, month))
                    {
                        throw new RetentionException(
                            $"{month} is still in the store: some of its readings have no signals yet. Where no server is just storing them, one was killed: start a server, which stores them, and try again.");
                    }

                    var part = (earlier?.Part ?? 0) + 1;
                    var path = System.IO.Path.Combine(folder, FileName(month, part));
                    if (File.Exists(path))
                    {
                        throw new RetentionException($"{path} exists already, and the month is still in the store. Move the file away, or name another folder.");
                    }

                    unfinished = path + ".partial";
                    Remove(unfinished);
                    var contents = CopyAsync(connection, month, part, unfinished, clock, cancellationToken).GetAwaiter().GetResult();
                    return new MonthExport(path, part, earlier?.LastSequence ?? 0, floor, Added(connection, month, floor), contents);
                },
                () => false,
                cancellationToken).ConfigureAwait(false);
            await VerifyAsync(unfinished, partial.Contents, clock, cancellationToken).ConfigureAwait(false);
            Publish(unfinished, partial.Path, flushFolder);
            return partial;
        }
        catch when (unfinished.Length > 0)
        {
            Remove(unfinished);
            throw;
        }
    }

    /// <summary>Readings of a month behind a floor, and how many of them have signals.</summary>
    public static (long Readings, long Signals) Added(NpgsqlConnection connection, MonthSpan month, long floor)
    {
        using var command = Commands.Make(
            connection,
            """
            SELECT count(*), count(reading_signal.sequence) FROM reading_id AS added
            LEFT JOIN reading_signal ON reading_signal.line = added.line AND reading_signal.sequence = added.sequence
            WHERE added.sequence > @floor AND added.measured_at >= @first AND added.measured_at < @next
            """);
        command.CommandTimeout = 0;
        command.Add("@floor", floor);
        command.Add("@first", month.FirstTick);
        command.Add("@next", month.NextTick);
        using var rows = command.ExecuteReader();
        rows.Read();
        return (rows.GetInt64(0), rows.GetInt64(1));
    }

    private static string FileName(MonthSpan month, long part) => part == 1
        ? $"readings-{month}.db"
        : string.Create(CultureInfo.InvariantCulture, $"readings-{month}-{part}.db");

    private static async Task<StoreContents> CopyAsync(
        NpgsqlConnection connection, MonthSpan month, long part, string path, TimeProvider clock, CancellationToken cancellationToken)
    {
        var target = SqliteStore.Open(path, clock);
        await using var ofCopy = target.ConfigureAwait(false);
        return await StoreCopy.RunAsync(connection, target, month, own => Mark(own, month, part), cancellationToken).ConfigureAwait(false);
    }

    private static void Mark(DbConnection own, MonthSpan month, long part)
    {
        using var command = Commands.Make(own, "INSERT INTO month_export (month, part) VALUES (@month, @part)");
        command.Add("@month", month.ToString());
        command.Add("@part", part);
        command.ExecuteNonQuery();
    }

    // What was compared was read within the transaction that wrote it; this reads the closed file.
    private static async Task VerifyAsync(string path, StoreContents contents, TimeProvider clock, CancellationToken cancellationToken)
    {
        var written = SqliteStore.Open(path, clock);
        await using var ofFile = written.ConfigureAwait(false);
        var report = await written.Audit.VerifyAsync([], progress: null, cancellationToken).ConfigureAwait(false);
        if (report.Break is { } found)
        {
            throw new RetentionException($"The month is not retired: in its export {found.Record?.ToString() ?? "a record"} does not hold ({found.Fault}). Verify the store with \"audit verify\".");
        }

        if (report.ExportSha256 != contents.Sha256 || report.Readings != contents.Readings)
        {
            throw new RetentionException("The month is not retired: its export does not give back what was written. Look after the disk.");
        }
    }

    // What a server that was killed left is settled by the next start, which would change the month behind its export.
    private static bool Awaits(NpgsqlConnection connection, MonthSpan month)
    {
        using var command = Commands.Make(
            connection,
            """
            SELECT EXISTS (
                SELECT 1 FROM awaited_signal JOIN reading ON reading.line = awaited_signal.line AND reading.sequence = awaited_signal.sequence
                WHERE measured_at >= @first AND measured_at < @next)
            """);
        command.Add("@first", month.FirstTick);
        command.Add("@next", month.NextTick);
        return (bool)command.ExecuteScalar()!;
    }

    // Bytes and name have to outlive a crash of the machine, since the month leaves the database next.
    private static void Publish(string unfinished, string path, Action<string> flushFolder)
    {
        // Where a full disk kept the log of the file from being taken in, rows are still in it, and would stay behind.
        if (new FileInfo(unfinished + "-wal") is { Exists: true, Length: > 0 })
        {
            throw new RetentionException($"The month is not retired: its export {path} was not written out to the end. Look whether the disk is full.");
        }

        ExportFlush.File(unfinished);
        File.Move(unfinished, path);
        try
        {
            flushFolder(System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(path))!);
        }
        catch (IOException error)
        {
            File.Delete(path);
            throw new RetentionException($"The month is not retired: its export {path} cannot be brought to the disk: {error.Message}. Name another folder.", error);
        }
    }

    private static void Remove(string path)
    {
        foreach (var suffix in new[] { "", "-wal", "-shm" })
        {
            File.Delete(path + suffix);
        }
    }
}
