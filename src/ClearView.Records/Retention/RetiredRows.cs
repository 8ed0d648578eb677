using System.Data.Common;

using ClearView.Records.Audit;
using ClearView.Records.Sql;

namespace ClearView.Records.Retention;

/// <summary>Rows of the table of retired months.</summary>
internal static class RetiredRows
{
    private const string Select =
        """
        SELECT month, part, first_tick, next_tick, after_sequence, last_sequence, readings, series_values, sha256, export_file, retired_at, retired_by
        FROM retired_month
        """;

    /// <summary>Every retirement, in the order of months and parts.</summary>
    public static List<RetiredMonth> All(DbConnection connection, DbTransaction? transaction)
    {
        using var command = Commands.Make(connection, Select + " ORDER BY month, part");
        command.Transaction = transaction;
        using var rows = command.ExecuteReader();
        List<RetiredMonth> months = [];
        while (rows.Read())
        {
            months.Add(Read(rows));
        }

        return months;
    }

    /// <summary>With what month a reading was retired.</summary>
    /// <returns>The month; <see langword="null"/> where the identifier is of no retired reading.</returns>
    public static RetiredMonth? Find(DbConnection connection, DbTransaction? transaction, IStoreDatabase database, Guid id)
    {
        using var command = Commands.Make(
            connection,
            Select + " WHERE (month, part) = (SELECT retired_reading.month, retired_reading.part FROM retired_reading WHERE retired_reading.id = @id ORDER BY retired_reading.sequence LIMIT 1)");
        command.Transaction = transaction;
        command.Add("@id", database.IdValue(id));
        using var rows = command.ExecuteReader();
        return rows.Read() ? Read(rows) : null;
    }

    /// <summary>Inserts a retirement.</summary>
    public static void Insert(DbConnection connection, DbTransaction transaction, RetiredMonth retired)
    {
        using var command = Commands.Make(
            connection,
            """
            INSERT INTO retired_month (month, part, first_tick, next_tick, after_sequence, last_sequence, readings, series_values, sha256, export_file, retired_at, retired_by)
            VALUES (@month, @part, @first_tick, @next_tick, @after_sequence, @last_sequence, @readings, @values, @sha256, @export_file, @retired_at, @retired_by)
            """);
        command.Transaction = transaction;
        command.Add("@month", retired.Month);
        command.Add("@part", retired.Part);
        command.Add("@first_tick", retired.FirstTick);
        command.Add("@next_tick", retired.NextTick);
        command.Add("@after_sequence", retired.AfterSequence);
        command.Add("@last_sequence", retired.LastSequence);
        command.Add("@readings", retired.Readings);
        command.Add("@values", retired.Values);
        command.Add("@sha256", retired.Sha256);
        command.Add("@export_file", retired.ExportFile);
        command.Add("@retired_at", retired.RetiredAt.UtcTicks);
        command.Add("@retired_by", retired.RetiredBy);
        command.ExecuteNonQuery();
    }

    /// <summary>The record of a retirement in its chain.</summary>
    public static RecordKey KeyOf(RetiredMonth retired) => new(RecordKey.RetiredKind, retired.Month, retired.Part);

    private static RetiredMonth Read(DbDataReader row) => new(
        row.GetString(0),
        row.GetInt64(1),
        row.GetInt64(2),
        row.GetInt64(3),
        row.GetInt64(4),
        row.GetInt64(5),
        row.GetInt64(6),
        row.GetInt64(7),
        row.GetString(8),
        row.GetString(9),
        new DateTimeOffset(row.GetInt64(10), TimeSpan.Zero),
        row.GetString(11));
}
