using System.Globalization;

using ClearView.Benchmarks.Measuring;
using ClearView.Benchmarks.Posting;

using Microsoft.Data.Sqlite;

namespace ClearView.Benchmarks.Queries;

/// <summary>Lets a store file grow by copies of the readings that it holds, each copy later in time, in other lots, under other identifiers.</summary>
/// <remarks>
/// Writing ten million readings one by one takes an hour that says nothing of queries. Copies have no links: the store answers
/// queries, and would not pass a verification.
/// </remarks>
internal static class StoreGrowth
{
    /// <summary>Readings that are written one by one before copies of them follow; whole lots.</summary>
    public const int Written = 20 * StoreFill.LotSize * StoreFill.Lines;

    /// <summary>Copies readings until a store is full.</summary>
    /// <param name="path">The store file; no server has it open.</param>
    /// <param name="size">How many readings it is to hold, a multiple of those that it holds.</param>
    /// <param name="step">Time between two readings.</param>
    public static void Run(string path, int size, TimeSpan step)
    {
        if (size % Written != 0)
        {
            throw new LoadException(FormattableString.Invariant($"stores above {Written} readings grow by copies: write a multiple of {Written}"));
        }

        using var connection = new SqliteConnection($"Data Source={path};Pooling=False");
        connection.Open();
        Execute(connection, "PRAGMA synchronous = OFF");
        Execute(connection, "PRAGMA cache_size = -500000");
        for (var copy = 1; copy < size / Written; copy++)
        {
            Execute(connection, "BEGIN");
            CopyLots(connection, copy * (Written / StoreFill.Lines / StoreFill.LotSize));
            var places = (long)copy * Written;
            var ticks = step.Ticks * places;
            Execute(
                connection,
                """
                INSERT INTO reading (sequence, id, measured_at, recorded_at, line, product, lot, roll, specimen, software_version,
                                     method, measurement, evaluation, verdict, instrument, across_mm, along_m)
                SELECT sequence + @places, unhex(printf('%016x%016x', sequence + @places, sequence)), measured_at + @ticks, recorded_at, line, product,
                       other_name, roll, specimen, software_version, method, measurement, evaluation, verdict, instrument, across_mm, along_m
                FROM reading JOIN other_lot ON name = lot WHERE sequence <= @written
                """,
                ("@places", places), ("@ticks", ticks), ("@written", Written));
            Execute(
                connection,
                """
                INSERT INTO series_value (line, measurand, measured_at, sequence, value, product, lot, roll, instrument, across_mm, along_m)
                SELECT line, measurand, measured_at + @ticks, sequence + @places, value, product, other_code, roll, instrument, across_mm, along_m
                FROM series_value JOIN other_lot ON code = lot WHERE sequence <= @written
                """,
                ("@places", places), ("@ticks", ticks), ("@written", Written));
            Execute(connection, "DROP TABLE other_lot");
            Execute(connection, "COMMIT");
        }

        Execute(connection, "PRAGMA wal_checkpoint(TRUNCATE)");
    }

    // Lots are numbered on: "L-3-7" becomes "L-3-27" in a copy that begins twenty lots later.
    private static void CopyLots(SqliteConnection connection, int lots)
    {
        var written = string.Create(CultureInfo.InvariantCulture, $"SELECT DISTINCT lot AS name, substr(lot, 1, 4) || (CAST(substr(lot, 5) AS INTEGER) + {lots}) AS other_name FROM reading WHERE sequence <= {Written}");
        Execute(connection, $"INSERT INTO label (text) SELECT other_name FROM ({written})");
        Execute(
            connection,
            $"""
            CREATE TEMP TABLE other_lot AS
            SELECT name, other_name, label.code AS code, other.code AS other_code FROM ({written})
            JOIN label ON label.text = name JOIN label AS other ON other.text = other_name
            """);
    }

    private static void Execute(SqliteConnection connection, string sql, params (string Name, object Value)[] parameters)
    {
#pragma warning disable CA2100 // Statements are made of constants and numbers here.
        using var command = new SqliteCommand(sql, connection);
#pragma warning restore CA2100
        command.CommandTimeout = 0;
        foreach (var (name, value) in parameters)
        {
            command.Parameters.AddWithValue(name, value);
        }

        command.ExecuteNonQuery();
    }
}
