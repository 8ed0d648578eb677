using ClearView.Records.Model;
using ClearView.Records.Sql;

using Npgsql;

namespace ClearView.Records.Postgres;

/// <summary>One walk over a series, row by row as the server sends it.</summary>
/// <remarks>One statement sees the database of one moment. A text that was never recorded has no code, and no value equals it.</remarks>
internal sealed class SeriesScan(SeriesQuery query, SeriesRowVisitor visit)
{
    /// <summary>Values that were visited so far.</summary>
    public long Count { get; private set; }

    /// <summary>Reads the series.</summary>
    /// <returns>The number of values.</returns>
    public long Run(NpgsqlConnection connection, CancellationToken cancellationToken)
    {
        cancellationToken.ThrowIfCancellationRequested();
        using var command = Command(connection);
        using var stop = cancellationToken.Register(command.Cancel);
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            cancellationToken.ThrowIfCancellationRequested();
            var row = new SeriesRow(
                rows.GetInt64(0),
                rows.GetInt64(1),
                rows.GetDouble(2),
                query.Label == SeriesLabel.None ? "" : rows.GetString(5),
                rows.IsDBNull(3) ? double.NaN : rows.GetDouble(3),
                rows.IsDBNull(4) ? double.NaN : rows.GetDouble(4));
            Count++;
            visit(row);
        }

        return Count;
    }

    private NpgsqlCommand Command(NpgsqlConnection connection)
    {
        var command = connection.CreateCommand();

        // Sorting the lines together may take the server a while; the caller's token bounds it.
        command.CommandTimeout = 0;
        List<string> conditions = [];
        foreach (var (column, text) in new[]
        {
            ("measurand", query.Measurand), ("line", query.Line), ("product", query.Product), ("lot", query.Lot), ("roll", query.Roll),
            ("instrument", query.Instrument),
        })
        {
            if (text is not null)
            {
                conditions.Add($"series_value.{column} = (SELECT code FROM label WHERE text = @{column})");
                command.Add("@" + column, text);
            }
        }

        // A roll or a lot is a short while of a long series: the index of readings knows which, and other months are passed over.
        foreach (var column in new[] { query.Roll is null ? null : "roll", query.Lot is null ? null : "lot" }.OfType<string>())
        {
            conditions.Add($"measured_at >= (SELECT min(measured_at) FROM reading WHERE reading.{column} = @{column})");
            conditions.Add($"measured_at <= (SELECT max(measured_at) FROM reading WHERE reading.{column} = @{column})");
        }

        if (query.MeasuredFrom is { } from)
        {
            conditions.Add("measured_at >= @from");
            command.Add("@from", from.UtcTicks);
        }

        if (query.MeasuredBefore is { } before)
        {
            conditions.Add("measured_at < @before");
            command.Add("@before", before.UtcTicks);
        }

        // A reading that was corrected leaves every series; the few are looked up in memory.
        conditions.Add("sequence NOT IN (SELECT superseded_sequence FROM correction)");
        var (label, join) = query.Label switch
        {
            SeriesLabel.Roll => (", label.text", " JOIN label ON label.code = series_value.roll"),
            SeriesLabel.Lot => (", label.text", " JOIN label ON label.code = series_value.lot"),
            _ => ("", ""),
        };
#pragma warning disable CA2100 // Conditions are our own constants; every value travels as a parameter.
        command.CommandText = $"SELECT measured_at, sequence, value, across_mm, along_m{label} FROM series_value{join} WHERE "
            + string.Join(" AND ", conditions) + " ORDER BY measured_at, sequence";
#pragma warning restore CA2100
        return command;
    }
}
