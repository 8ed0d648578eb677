using System.Data.Common;

using ClearView.Records.Model;

namespace ClearView.Records.Sql;

/// <summary>Rows of the tables to readings and back.</summary>
internal static class ReadingRows
{
    // One row at most where nobody tampered with the tables; a verification tells of more, and has to be able to read them.

    /// <summary>Columns of a reading, in the order that <see cref="Read"/> takes them.</summary>
    public const string SelectReading =
        """
        SELECT sequence, id, measured_at, recorded_at, line, product, lot, roll, specimen, software_version,
               method, measurement, evaluation, verdict, instrument, across_mm, along_m, origin, correction_note, picture_info,
               (SELECT superseded FROM correction WHERE by_sequence = reading.sequence LIMIT 1) AS corrected_id,
               (SELECT superseded_sequence FROM correction WHERE by_sequence = reading.sequence LIMIT 1) AS corrected_sequence,
               (SELECT later.id FROM correction JOIN reading_number AS later ON later.sequence = by_sequence
                WHERE correction.line = reading.line AND superseded = reading.id LIMIT 1) AS superseded_by,
               (SELECT signals FROM reading_signal WHERE reading_signal.line = reading.line AND reading_signal.sequence = reading.sequence) AS signals,
               (SELECT correction.line FROM correction WHERE by_sequence = reading.sequence LIMIT 1) AS corrected_line
        FROM reading
        """;

    /// <summary>The reading under an identifier.</summary>
    public static StoredReading? Find(DbConnection connection, DbTransaction? transaction, IStoreDatabase database, Guid id)
    {
        using var command = FindCommand(connection, database);
        return Find(command, transaction, database, id);
    }

    /// <summary>A command that finds readings, to be kept where many are looked for.</summary>
    public static DbCommand FindCommand(DbConnection connection, IStoreDatabase database)
    {
        var command = Commands.Make(connection, SelectReading + " WHERE " + database.FindByIdCondition);
        command.Add("@id", null);
        return command;
    }

    /// <summary>The reading under an identifier, by a command of <see cref="FindCommand"/>.</summary>
    public static StoredReading? Find(DbCommand command, DbTransaction? transaction, IStoreDatabase database, Guid id)
    {
        command.Transaction = transaction;
        command.Parameters[0].Value = database.IdValue(id);
        using var rows = command.ExecuteReader();
        return rows.Read() ? Read(rows) : null;
    }

    /// <summary>A command that lists the readings of a query, one more than its page holds.</summary>
    public static DbCommand ListCommand(DbConnection connection, ReadingQuery query, IStoreDatabase database)
    {
        var command = connection.CreateCommand();
        List<string> conditions = [];
        void Where(string condition, string parameter, object? value)
        {
            if (value is not null)
            {
                conditions.Add(condition);
                command.Add(parameter, value);
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
            // The bound on the time alone lets an engine that keeps months apart pass over those behind.
            conditions.Add(newestFirst ? "(measured_at, id) < (@at, @id)" : "(measured_at, id) > (@at, @id)");
            conditions.Add(newestFirst ? "measured_at <= @at" : "measured_at >= @at");
            command.Add("@at", after.MeasuredAt.UtcTicks);
            command.Add("@id", database.IdValue(after.Id));
        }

        // Conditions and orders are our own constants; every value travels as a parameter.
        var where = conditions.Count == 0 ? "" : " WHERE " + string.Join(" AND ", conditions);
        var order = newestFirst ? " ORDER BY measured_at DESC, id DESC" : " ORDER BY measured_at, id";
#pragma warning disable CA2100
        command.CommandText = SelectReading + where + order + " LIMIT @limit";
#pragma warning restore CA2100
        command.Add("@limit", query.PageSize + 1L);
        return command;
    }

    /// <summary>A command that lists readings in the order of recording, one more than the page holds.</summary>
    public static DbCommand RecordedCommand(DbConnection connection, RecordedQuery query, long through, IStoreDatabase database)
    {
        var filters = "";
        var command = connection.CreateCommand();
        command.Add("@after", query.After);
        command.Add("@through", through);
        command.Add("@limit", query.PageSize + 1L);
        foreach (var (column, text) in new[] { ("line", query.Line), ("product", query.Product), ("lot", query.Lot), ("roll", query.Roll) })
        {
            if (text is not null)
            {
                filters += $" AND reading.{column} = @{column}";
                command.Add("@" + column, text);
            }
        }

        // Statements are our own constants; every value travels as a parameter.
#pragma warning disable CA2100
        command.CommandText = database.SelectRecorded(filters);
#pragma warning restore CA2100
        return command;
    }

    /// <summary>The reading in the current row.</summary>
    public static StoredReading Read(DbDataReader row)
    {
        var entry = new ReadingEntry
        {
            Id = Identifier(row, 1)!.Value,
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
            Verdict = Payload(row, 13),
            Instrument = row.GetString(14),
            AcrossMm = row.IsDBNull(15) ? null : row.GetDouble(15),
            AlongM = row.IsDBNull(16) ? null : row.GetDouble(16),
            Origin = Payload(row, 17),
            CorrectionNote = Payload(row, 18),
            PictureInfo = Payload(row, 19),
            Corrects = Identifier(row, 20),
        };
        return new StoredReading(entry, new DateTimeOffset(row.GetInt64(3), TimeSpan.Zero), row.GetInt64(0))
        {
            CorrectedSequence = row.IsDBNull(21) ? 0 : row.GetInt64(21),
            SupersededBy = Identifier(row, 22),
            Signals = Payload(row, 23),
            CorrectedLine = row.IsDBNull(24) ? "" : row.GetString(24),
        };
    }

    private static byte[] Payload(DbDataReader row, int column) => row.IsDBNull(column) ? [] : row.GetFieldValue<byte[]>(column);

    private static Guid? Identifier(DbDataReader row, int column) => row.GetValue(column) switch
    {
        Guid id => id,
        byte[] bytes => new Guid(bytes, bigEndian: true),
        _ => null,
    };
}
