using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

using SQLitePCL;

namespace ClearView.Records.Sqlite;

/// <summary>One walk over a series.</summary>
/// <remarks>
/// A year of a line is three million values: they are stepped through with SQLite's own calls, without an object per value. Texts
/// are compared as codes, and each is fetched once.
/// </remarks>
internal sealed class SeriesScan
{
    private const int CancellationEvery = 4096;

    // The lines of the table, each by one look into the key instead of a walk over all values.
    private const string LinesSql =
        """
        WITH RECURSIVE lines (code) AS (
            SELECT min(line) FROM series_value
            UNION ALL
            SELECT (SELECT min(line) FROM series_value WHERE line > lines.code) FROM lines WHERE lines.code IS NOT NULL)
        SELECT code FROM lines WHERE code IS NOT NULL
        """;

    private readonly SqliteConnection _connection;
    private readonly SeriesQuery _query;
    private readonly List<(string Condition, long Value)> _conditions = [];
    private readonly Dictionary<long, string> _labels = [];
    private readonly HashSet<long> _superseded = [];

    private SeriesScan(SqliteConnection connection, SeriesQuery query)
    {
        _connection = connection;
        _query = query;
    }

    /// <summary>Reads the series.</summary>
    /// <returns>The number of values.</returns>
    public static long Run(SqliteConnection connection, SeriesQuery query, SeriesRowVisitor visit, CancellationToken cancellationToken)
    {
        // One transaction, so that codes, bounds and values are of one moment.
        using var moment = connection.BeginTransaction(deferred: true);
        var scan = new SeriesScan(connection, query);
        return scan.Prepare() ? scan.Walk(visit, cancellationToken) : 0;
    }

    // False where a text of the query was never recorded, so that no value can match.
    private bool Prepare()
    {
        foreach (var (column, text) in new[]
        {
            ("measurand", _query.Measurand), ("line", _query.Line), ("product", _query.Product), ("lot", _query.Lot), ("roll", _query.Roll),
            ("instrument", _query.Instrument),
        })
        {
            if (text is null)
            {
                continue;
            }

            if (Code(text) is not { } code)
            {
                return false;
            }

            _conditions.Add(($"{column} = ?{_conditions.Count + 1}", code));
        }

        AddBounds();
        ReadSuperseded();
        return true;
    }

    // A roll or a lot is a short while of a long series: the index of readings knows which.
    private void AddBounds()
    {
        var from = _query.MeasuredFrom?.UtcTicks ?? long.MinValue;
        var before = _query.MeasuredBefore?.UtcTicks ?? long.MaxValue;
        foreach (var (column, text) in new[] { ("roll", _query.Roll), ("lot", _query.Lot), ("product", _query.Product) })
        {
            if (text is not null)
            {
                from = Math.Max(from, Bound("min", column, text) ?? long.MaxValue);
                before = Math.Min(before, Bound("max", column, text) + 1 ?? long.MinValue);
            }
        }

        _conditions.Add(($"measured_at >= ?{_conditions.Count + 1}", from));
        _conditions.Add(($"measured_at < ?{_conditions.Count + 1}", before));
    }

    // Few: a reading that was corrected leaves every series.
    private void ReadSuperseded()
    {
        using var command = _connection.CreateCommand();
        command.CommandText = "SELECT superseded_sequence FROM correction";
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            _superseded.Add(rows.GetInt64(0));
        }
    }

    private long Walk(SeriesRowVisitor visit, CancellationToken cancellationToken)
    {
        var handle = _connection.Handle!;
        Check(raw.sqlite3_prepare_v2(handle, Sql(), out var statement), handle);
        using (statement)
        {
            for (var i = 0; i < _conditions.Count; i++)
            {
                Check(raw.sqlite3_bind_int64(statement, i + 1, _conditions[i].Value), handle);
            }

            var (steps, count) = (0L, 0L);
            int step;
            while ((step = raw.sqlite3_step(statement)) == raw.SQLITE_ROW)
            {
                if (steps++ % CancellationEvery == 0)
                {
                    cancellationToken.ThrowIfCancellationRequested();
                }

                var sequence = raw.sqlite3_column_int64(statement, 1);
                if (_superseded.Contains(sequence))
                {
                    continue;
                }

                count++;
                var row = new SeriesRow(
                    raw.sqlite3_column_int64(statement, 0),
                    sequence,
                    raw.sqlite3_column_double(statement, 2),
                    Label(statement),
                    _query.OmitPlaces ? double.NaN : Place(statement, 3),
                    _query.OmitPlaces ? double.NaN : Place(statement, 4));
                visit(row);
            }

            Check(step == raw.SQLITE_DONE ? raw.SQLITE_OK : step, handle);
            return count;
        }
    }

    // The key yields the order of one line; lines together have to be sorted.
    private string Sql()
    {
        var label = _query.Label switch
        {
            SeriesLabel.Roll => ", roll",
            SeriesLabel.Lot => ", lot",
            _ => "",
        };
        var lines = _query.Line is null ? " AND line IN (SELECT code FROM (" + LinesSql + "))" : "";
        return "SELECT measured_at, sequence, value, across_mm, along_m" + label + " FROM series_value WHERE "
            + string.Join(" AND ", _conditions.Select(condition => condition.Condition)) + lines
            + " ORDER BY measured_at, sequence";
    }

    private string Label(sqlite3_stmt statement)
    {
        const int column = 5;
        if (_query.Label == SeriesLabel.None)
        {
            return "";
        }

        var code = raw.sqlite3_column_int64(statement, column);
        if (!_labels.TryGetValue(code, out var text))
        {
            text = (string)Scalar("SELECT text FROM label WHERE code = @value", code)!;
            _labels.Add(code, text);
        }

        return text;
    }

    private static double Place(sqlite3_stmt statement, int column) =>
        raw.sqlite3_column_type(statement, column) == raw.SQLITE_NULL ? double.NaN : raw.sqlite3_column_double(statement, column);

    private long? Code(string text) => Scalar("SELECT code FROM label WHERE text = @value", text) as long?;

    private long? Bound(string function, string column, string text) =>
        Scalar($"SELECT {function}(measured_at) FROM reading WHERE {column} = @value", text) as long?;

    // A command of the connection's own making takes part in its transaction.
    private object? Scalar(string sql, object value)
    {
        using var command = _connection.CreateCommand();

        // Statements are our own constants; every value travels as a parameter.
#pragma warning disable CA2100
        command.CommandText = sql;
#pragma warning restore CA2100
        command.Parameters.AddWithValue("@value", value);
        return command.ExecuteScalar();
    }

    private static void Check(int code, sqlite3 handle)
    {
        if (code != raw.SQLITE_OK)
        {
            SqliteException.ThrowExceptionForRC(code, handle);
        }
    }
}
