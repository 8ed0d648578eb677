using System.Collections.Immutable;

using ClearView.Records.Model;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>Reads what other servers recorded.</summary>
/// <param name="own">What this server recorded.</param>
internal sealed class OthersScan(OwnSequences own)
{
    // Beyond, reading each series once is cheaper than reading by reading; a transaction that hangs keeps no more open either.
    private const long MostPlaces = 10_000;

    // A part of the tables may have no statistics yet: "OFFSET 0" keeps the look by key, reading by reading.
    private const string Select =
        """
        SELECT recorded.sequence, recorded.id, recorded.measured_at, recorded.line, stored.product, stored.lot, stored.roll, stored.instrument,
               wanted.text, given.value
        FROM (SELECT sequence, id, line, measured_at, (SELECT code FROM label WHERE text = reading_id.line) AS line_code
              FROM reading_id WHERE sequence = ANY (@sequences)) AS recorded
        CROSS JOIN (SELECT code, text FROM label WHERE text = ANY (@measurands)) AS wanted
        CROSS JOIN LATERAL (SELECT value FROM series_value
              WHERE series_value.line = recorded.line_code AND series_value.measurand = wanted.code
                AND series_value.measured_at = recorded.measured_at AND series_value.sequence = recorded.sequence OFFSET 0) AS given
        CROSS JOIN LATERAL (SELECT product, lot, roll, instrument FROM reading
              WHERE reading.line = recorded.line AND reading.measured_at = recorded.measured_at AND reading.id = recorded.id OFFSET 0) AS stored
        ORDER BY recorded.sequence
        """;

    /// <summary>Reads what is visible now.</summary>
    /// <param name="connection">A connection outside of a transaction: each statement has to see its own moment.</param>
    /// <param name="query">Which readings.</param>
    public OthersPage Run(NpgsqlConnection connection, OthersQuery query)
    {
        // The floor is found out before the rows are read: what was in flight then lies behind it.
        var through = RecordingFloors.Complete(connection, beforeSignals: true);
        if (through - query.After > MostPlaces || query.After < own.ForgottenThrough)
        {
            return new OthersPage([], through, [], IsBroken: true);
        }

        through = Math.Max(through, query.After);
        var sequences = Places(connection, query.After, through + MostPlaces)
            .Where(sequence => !query.Known.Contains(sequence) && !own.Contain(sequence)).ToImmutableArray();
        if (sequences.Length > 0 && HoldCorrections(connection, [.. sequences]))
        {
            return new OthersPage([], through, sequences, IsBroken: true);
        }

        return new OthersPage(sequences.Length == 0 ? [] : Read(connection, [.. sequences], [.. query.Measurands]), through, sequences, IsBroken: false);
    }

    private static List<long> Places(NpgsqlConnection connection, long after, long last)
    {
        using var list = new NpgsqlCommand("SELECT sequence FROM reading_id WHERE sequence > @after AND sequence <= @last", connection);
        list.Parameters.AddWithValue("after", after);
        list.Parameters.AddWithValue("last", last);
        using var rows = list.ExecuteReader();
        List<long> places = [];
        while (rows.Read())
        {
            places.Add(rows.GetInt64(0));
        }

        return places;
    }

    // A correction takes another reading out of its series.
    private static bool HoldCorrections(NpgsqlConnection connection, long[] sequences)
    {
        using var look = new NpgsqlCommand("SELECT EXISTS (SELECT 1 FROM correction WHERE by_sequence = ANY (@sequences))", connection);
        look.Parameters.AddWithValue("sequences", sequences);
        return (bool)look.ExecuteScalar()!;
    }

    private static ImmutableArray<OtherReading> Read(NpgsqlConnection connection, long[] sequences, string[] measurands)
    {
        using var select = new NpgsqlCommand(Select, connection);
        select.Parameters.AddWithValue("sequences", sequences);
        select.Parameters.AddWithValue("measurands", measurands);
        using var rows = select.ExecuteReader();
        var readings = ImmutableArray.CreateBuilder<OtherReading>();
        while (rows.Read())
        {
            var value = new MeasurandValue(rows.GetString(8), rows.GetDouble(9));
            if (readings.Count > 0 && readings[^1].Sequence == rows.GetInt64(0))
            {
                readings[^1] = readings[^1] with { Entry = readings[^1].Entry with { Values = readings[^1].Entry.Values.Add(value) } };
            }
            else
            {
                readings.Add(new OtherReading(rows.GetInt64(0), ReadEntry(rows, value)));
            }
        }

        return readings.ToImmutable();
    }

    private static ReadingEntry ReadEntry(NpgsqlDataReader row, MeasurandValue value) => new()
    {
        Id = row.GetGuid(1),
        MeasuredAt = new DateTimeOffset(row.GetInt64(2), TimeSpan.Zero),
        Line = row.GetString(3),
        Product = row.GetString(4),
        Lot = row.GetString(5),
        Roll = row.GetString(6),
        Instrument = row.GetString(7),
        Measurement = ReadOnlyMemory<byte>.Empty,
        Method = ReadOnlyMemory<byte>.Empty,
        Evaluation = ReadOnlyMemory<byte>.Empty,
        SoftwareVersion = "",
        Values = [value],
    };
}
