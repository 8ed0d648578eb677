using System.Data.Common;

using ClearView.Records.Audit;
using ClearView.Records.Model;
using ClearView.Records.Retention;
using ClearView.Records.Schema;
using ClearView.Records.Sql;

namespace ClearView.Records.Exchange;

/// <summary>Goes through every row of a store in an order that is the same in every engine.</summary>
/// <param name="connection">A connection within a transaction that sees one moment.</param>
/// <param name="month">Goes through the readings of this month with all that belongs to them, and through nothing else; <see langword="null"/> for everything.</param>
internal sealed class StoreWalk(DbConnection connection, MonthSpan? month = null)
{
    private const int LargestBatch = 500;
    private const long LargestBatchBytes = 16 * 1024 * 1024;

    /// <summary>Whether there is nothing in the store.</summary>
    public bool IsEmpty()
    {
        using var command = Commands.Make(
            connection,
            "SELECT CASE WHEN EXISTS (SELECT 1 FROM reading) OR EXISTS (SELECT 1 FROM versioned) OR EXISTS (SELECT 1 FROM series_value) OR EXISTS (SELECT 1 FROM link) THEN 1 ELSE 0 END");
        return Convert.ToInt64(command.ExecuteScalar(), System.Globalization.CultureInfo.InvariantCulture) == 0;
    }

    /// <summary>Goes through the store.</summary>
    /// <param name="sink">Takes the rows; <see langword="null"/> only counts and sums them up.</param>
    /// <param name="cancellationToken">Stops it.</param>
    public StoreContents Run(IRowSink? sink, CancellationToken cancellationToken)
    {
        using var digest = new RowDigest();
        Batch(Readings(), reading => reading.Entry.PayloadLength + reading.Signals.Length, digest.Add, rows => sink?.AddReadings(rows), cancellationToken);
        Batch(Awaited(), _ => 0, digest.Add, rows => sink?.AddAwaited(rows), cancellationToken);
        Batch(Values(), _ => 0, digest.Add, rows => sink?.AddValues(rows), cancellationToken);
        foreach (var (line, sequence, picture) in Pictures())
        {
            cancellationToken.ThrowIfCancellationRequested();
            digest.Add(sequence, picture);
            sink?.AddPicture(line, sequence, picture);
        }

        foreach (var kind in Enum.GetValues<VersionedKind>().Where(_ => month is null).OrderBy(KindKeys.Of, StringComparer.Ordinal))
        {
            foreach (var version in Versions(kind))
            {
                cancellationToken.ThrowIfCancellationRequested();
                digest.Add(kind, version);
                sink?.AddVersion(kind, version);
            }
        }

        Batch(Links(), _ => 0, digest.Add, rows => sink?.AddLinks(rows), cancellationToken);
        return digest.Contents;
    }

    private static void Batch<T>(
        IEnumerable<T> rows, Func<T, long> bytesOf, Action<T> count, Action<IReadOnlyList<T>> take, CancellationToken cancellationToken)
    {
        List<T> batch = [];
        var bytes = 0L;
        foreach (var row in rows)
        {
            count(row);
            batch.Add(row);
            bytes += bytesOf(row);
            if (batch.Count == LargestBatch || bytes >= LargestBatchBytes)
            {
                cancellationToken.ThrowIfCancellationRequested();
                take(batch);
                batch.Clear();
                bytes = 0;
            }
        }

        if (batch.Count > 0)
        {
            take(batch);
        }
    }

    // An index of each engine yields this order.
    private IEnumerable<StoredReading> Readings()
    {
        using var command = Bounded(ReadingRows.SelectReading, Within("WHERE"), " ORDER BY measured_at, id");
        command.CommandTimeout = 0;
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            yield return ReadingRows.Read(rows);
        }
    }

    // A month that is exported awaits none: its retirement refuses it otherwise.
    private List<(string Line, long Sequence)> Awaited() => month is null
        ? Pairs(
            "SELECT reading.line, reading.sequence FROM awaited_signal JOIN reading ON reading.sequence = awaited_signal.sequence ORDER BY reading.sequence",
            row => (row.GetString(0), row.GetInt64(1)))
        : [];

    private IEnumerable<StoredVersion> Versions(VersionedKind kind)
    {
        using var command = VersionRows.ListCommand(connection, kind, new VersionQuery { AllVersions = true, PageSize = int.MaxValue });
        command.CommandTimeout = 0;
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            yield return VersionRows.Read(rows);
        }
    }

    // Series by series, as the key keeps them. Codes differ between stores; their texts do not.
    private IEnumerable<SeriesValue> Values()
    {
        var texts = Pairs("SELECT code, text FROM label", row => (row.GetInt64(0), row.GetString(1))).ToDictionary(pair => pair.Item1, pair => pair.Item2);
        var series = Pairs("SELECT DISTINCT line, measurand FROM series_value" + Within("WHERE"), row => (Line: row.GetInt64(0), Measurand: row.GetInt64(1)));
        foreach (var (line, measurand) in series.OrderBy(pair => texts[pair.Line], StringComparer.Ordinal).ThenBy(pair => texts[pair.Measurand], StringComparer.Ordinal))
        {
            using var command = Bounded(
                """
                SELECT measured_at, sequence, value, product, lot, roll, instrument, across_mm, along_m FROM series_value
                WHERE line = @line AND measurand = @measurand
                """,
                Within("AND"),
                " ORDER BY measured_at, sequence");
            command.CommandTimeout = 0;
            command.Add("@line", line);
            command.Add("@measurand", measurand);
            using var rows = command.ExecuteReader();
            while (rows.Read())
            {
                yield return new SeriesValue
                {
                    Line = texts[line],
                    Measurand = texts[measurand],
                    MeasuredAtTicks = rows.GetInt64(0),
                    Sequence = rows.GetInt64(1),
                    Value = rows.GetDouble(2),
                    Product = texts[rows.GetInt64(3)],
                    Lot = texts[rows.GetInt64(4)],
                    Roll = texts[rows.GetInt64(5)],
                    Instrument = texts[rows.GetInt64(6)],
                    AcrossMm = rows.IsDBNull(7) ? null : rows.GetDouble(7),
                    AlongM = rows.IsDBNull(8) ? null : rows.GetDouble(8),
                };
            }
        }
    }

    private IEnumerable<(string Line, long Sequence, byte[] Picture)> Pictures()
    {
        using var command = Bounded("SELECT line, sequence, body FROM picture", OfReadings("WHERE sequence"), " ORDER BY sequence");
        command.CommandTimeout = 0;
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            yield return (rows.GetString(0), rows.GetInt64(1), rows.GetFieldValue<byte[]>(2));
        }
    }

    private IEnumerable<Link> Links()
    {
        using var command = Bounded(
            LinkRows.SelectLink, OfReadings("WHERE kind IN ('reading', 'signals') AND name = '' AND number"), " ORDER BY chain, position");
        command.CommandTimeout = 0;
        using var rows = command.ExecuteReader();
        while (rows.Read())
        {
            yield return LinkRows.Read(rows);
        }
    }

    private string Within(string keyword) => month is null ? "" : $" {keyword} measured_at >= @first AND measured_at < @next";

    private string OfReadings(string column) => month is null ? "" : $" {column} IN (SELECT sequence FROM reading{Within("WHERE")})";

    private DbCommand Bounded(string select, string bound = "", string order = "")
    {
        var command = Commands.Make(connection, select + bound + order);
        if (month is { } span && command.CommandText.Contains("@first", StringComparison.Ordinal))
        {
            command.Add("@first", span.FirstTick);
            command.Add("@next", span.NextTick);
        }

        return command;
    }

    private List<T> Pairs<T>(string sql, Func<DbDataReader, T> read)
    {
        using var command = Bounded(sql);
        command.CommandTimeout = 0;
        using var rows = command.ExecuteReader();
        List<T> list = [];
        while (rows.Read())
        {
            list.Add(read(rows));
        }

        return list;
    }
}
