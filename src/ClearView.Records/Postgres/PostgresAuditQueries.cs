using System.Data.Common;

using ClearView.Records.Sql;

namespace ClearView.Records.Postgres;

/// <summary>Questions of a verification to a database.</summary>
internal sealed class PostgresAuditQueries : IAuditQueries
{
    /// <inheritdoc/>
    public string SequenceTable => "reading_id";

    /// <inheritdoc/>
    public bool MayBeExport => false;

    /// <inheritdoc/>
    public void Prepare(DbConnection connection)
    {
        // A few hundred keys of tables with millions of rows: without statistics the planner may prefer to read the tables.
        using var command = Commands.Make(
            connection, "SET LOCAL enable_hashjoin = off; SET LOCAL enable_mergejoin = off; SET LOCAL enable_seqscan = off; SET LOCAL jit = off");
        command.ExecuteNonQuery();
    }

    /// <inheritdoc/>
    public DbCommand Readings(DbConnection connection, IReadOnlyList<long> sequences)
    {
        var command = Commands.Make(
            connection,
            ReadingRows.SelectReading + " WHERE (line, measured_at, id, sequence) IN (SELECT line, measured_at, id, sequence FROM reading_id WHERE sequence = ANY (@sequences))");
        command.CommandTimeout = 0;
        command.Add("@sequences", sequences.ToArray());
        return command;
    }

    /// <inheritdoc/>
    public DbCommand Retired(DbConnection connection, IReadOnlyList<long> sequences)
    {
        var command = Commands.Make(connection, "SELECT sequence FROM retired_reading WHERE sequence = ANY (@sequences)");
        command.CommandTimeout = 0;
        command.Add("@sequences", sequences.ToArray());
        return command;
    }

    /// <inheritdoc/>
    public DbCommand Values(DbConnection connection, IReadOnlyList<SeriesPlace> places, IReadOnlyList<long> measurands)
    {
        var command = Commands.Make(
            connection,
            """
            SELECT found.sequence, found.measurand, found.value, found.product, found.lot, found.roll, found.instrument, found.across_mm, found.along_m
            FROM unnest(@lines, @times, @sequences) AS place (line, measured_at, sequence)
            CROSS JOIN unnest(@measurands) AS asked (measurand)
            JOIN series_value AS found
                ON found.line = place.line AND found.measurand = asked.measurand
                AND found.measured_at = place.measured_at AND found.sequence = place.sequence
            """);
        command.CommandTimeout = 0;
        command.Add("@lines", places.Select(place => place.Line).ToArray());
        command.Add("@times", places.Select(place => place.MeasuredAtTicks).ToArray());
        command.Add("@sequences", places.Select(place => place.Sequence).ToArray());
        command.Add("@measurands", measurands.ToArray());
        return command;
    }
}
