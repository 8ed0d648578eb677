using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Rows of the tables to readings and back.</summary>
internal static class ReadingRows
{
    private const string SelectReading =
        """
        SELECT sequence, id, measured_at, recorded_at, line, product, lot, roll, specimen, software_version,
               method, measurement, evaluation, verdict, instrument, across_mm, along_m
        FROM reading
        """;

    /// <summary>A command that finds a reading by "@id".</summary>
    public static SqliteCommand FindCommand(SqliteConnection connection)
    {
        var command = new SqliteCommand(SelectReading + " WHERE id = @id", connection);
        command.Parameters.Add("@id", SqliteType.Blob);
        return command;
    }

    /// <summary>A command that lists the readings of a query, one more than its page holds.</summary>
    public static SqliteCommand ListCommand(SqliteConnection connection, ReadingQuery query)
    {
        var command = connection.CreateCommand();
        List<string> conditions = [];
        void Where(string condition, string parameter, object? value)
        {
            if (value is not null)
            {
                conditions.Add(condition);
                command.Parameters.AddWithValue(parameter, value);
            }
        }

        var newestFirst = query.Order == ReadingOrder.NewestFirst;
        Where("line = @line", "@line", query.Line);
        Where("product = @product", "@product", query.Product);
        Where("lot = @lot", "@lot", query.Lot);
        Where("roll = @roll", "@roll", query.Roll);
        Where("specimen = @specimen", "@specimen", query.Specimen);
        Where("measured_at >= @from", "@from", query.MeasuredFrom?.UtcTicks);
        Where("measured_at < @before", "@before", query.MeasuredBefore?.UtcTicks);
        if (query.After is { } after)
        {
            conditions.Add(newestFirst ? "(measured_at, id) < (@at, @id)" : "(measured_at, id) > (@at, @id)");
            command.Parameters.AddWithValue("@at", after.MeasuredAt.UtcTicks);
            command.Parameters.AddWithValue("@id", after.Id.ToByteArray(bigEndian: true));
        }

        // Conditions and orders are our own constants; every value travels as a parameter.
        var where = conditions.Count == 0 ? "" : " WHERE " + string.Join(" AND ", conditions);
        var order = newestFirst ? " ORDER BY measured_at DESC, id DESC" : " ORDER BY measured_at, id";
#pragma warning disable CA2100
        command.CommandText = SelectReading + where + order + " LIMIT @limit";
#pragma warning restore CA2100
        command.Parameters.AddWithValue("@limit", query.PageSize + 1L);
        return command;
    }

    /// <summary>The reading in the current row.</summary>
    public static StoredReading Read(SqliteDataReader row)
    {
        var entry = new ReadingEntry
        {
            Id = new Guid(row.GetFieldValue<byte[]>(1), bigEndian: true),
            MeasuredAt = new DateTimeOffset(row.GetInt64(2), TimeSpan.Zero),
            Line = row.GetString(4),
            Product = row.GetString(5),
            Lot = row.GetString(6),
            Roll = row.GetString(7),
            Specimen = row.GetString(8),
            SoftwareVersion = row.GetString(9),
            Method = row.GetFieldValue<byte[]>(10),
            Measurement = row.GetFieldValue<byte[]>(11),
            Evaluation = row.GetFieldValue<byte[]>(12),
            Verdict = row.IsDBNull(13) ? [] : row.GetFieldValue<byte[]>(13),
            Instrument = row.GetString(14),
            AcrossMm = row.IsDBNull(15) ? null : row.GetDouble(15),
            AlongM = row.IsDBNull(16) ? null : row.GetDouble(16),
        };
        return new StoredReading(entry, new DateTimeOffset(row.GetInt64(3), TimeSpan.Zero), row.GetInt64(0));
    }
}
