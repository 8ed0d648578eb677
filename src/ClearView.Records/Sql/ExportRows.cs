using System.Data.Common;

using ClearView.Records.Retention;

namespace ClearView.Records.Sql;

/// <summary>The row by which a store file is the export of a month.</summary>
internal static class ExportRows
{
    /// <summary>The month that a store is the export of; <see langword="null"/> where it is none, or could be none for what else it holds.</summary>
    /// <remarks>
    /// An export holds readings of its month with what belongs to them, and neither documents nor links to heads. A store that
    /// holds more is not taken for one, whatever was written into it.
    /// </remarks>
    public static string? Month(DbConnection connection, DbTransaction? transaction, IAuditQueries queries)
    {
        if (!queries.MayBeExport)
        {
            return null;
        }

        using var export = Commands.Make(
            connection,
            """
            SELECT month FROM month_export
            WHERE NOT EXISTS (SELECT 1 FROM versioned) AND NOT EXISTS (SELECT 1 FROM link WHERE kind NOT IN ('reading', 'signals'))
            """);
        export.Transaction = transaction;
        if (export.ExecuteScalar() is not string text || !MonthSpan.TryParse(text, out var month))
        {
            return null;
        }

        using var outside = Commands.Make(
            connection, "SELECT CASE WHEN EXISTS (SELECT 1 FROM reading WHERE measured_at < @first) OR EXISTS (SELECT 1 FROM reading WHERE measured_at >= @next) THEN 1 ELSE 0 END");
        outside.Transaction = transaction;
        outside.Add("@first", month.FirstTick);
        outside.Add("@next", month.NextTick);
        return outside.ExecuteScalar() is 0L or 0 ? text : null;
    }
}
