using System.Data.Common;
using System.Globalization;

using ClearView.Records.Sql;

namespace ClearView.Records.Sqlite;

/// <summary>Questions of a verification to a store file. Lists travel as JSON, of numbers only.</summary>
internal sealed class SqliteAuditQueries : IAuditQueries
{
    /// <inheritdoc/>
    public string SequenceTable => "reading";

    /// <inheritdoc/>
    public bool MayBeExport => true;

    /// <inheritdoc/>
    public void Prepare(DbConnection connection)
    {
        // The planner of SQLite keeps to the order of CROSS JOIN by itself.
    }

    /// <inheritdoc/>
    public DbCommand Readings(DbConnection connection, IReadOnlyList<long> sequences)
    {
        var command = Commands.Make(connection, ReadingRows.SelectReading + " WHERE sequence IN (SELECT value FROM json_each(@sequences))");
        command.Add("@sequences", Json(sequences));
        return command;
    }

    /// <inheritdoc/>
    public DbCommand Retired(DbConnection connection, IReadOnlyList<long> sequences)
    {
        var command = Commands.Make(connection, "SELECT sequence FROM retired_reading WHERE sequence IN (SELECT value FROM json_each(@sequences))");
        command.Add("@sequences", Json(sequences));
        return command;
    }

    /// <inheritdoc/>
    public DbCommand Values(DbConnection connection, IReadOnlyList<SeriesPlace> places, IReadOnlyList<long> measurands)
    {
        var command = Commands.Make(
            connection,
            """
            SELECT found.sequence, found.measurand, found.value, found.product, found.lot, found.roll, found.instrument, found.across_mm, found.along_m
            FROM json_each(@places) AS place
            CROSS JOIN json_each(@measurands) AS measurand
            CROSS JOIN series_value AS found
                ON found.line = json_extract(place.value, '$[0]') AND found.measurand = measurand.value
                AND found.measured_at = json_extract(place.value, '$[1]') AND found.sequence = json_extract(place.value, '$[2]')
            """);
        command.Add("@places", "[" + string.Join(',', places.Select(place => Json([place.Line, place.MeasuredAtTicks, place.Sequence]))) + "]");
        command.Add("@measurands", Json(measurands));
        return command;
    }

    private static string Json(IEnumerable<long> numbers) =>
        "[" + string.Join(',', numbers.Select(number => number.ToString(CultureInfo.InvariantCulture))) + "]";
}
