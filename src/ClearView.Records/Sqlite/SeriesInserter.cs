using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Writes the values of readings into the series through prepared commands of one connection.</summary>
internal sealed class SeriesInserter : IDisposable
{
    // Rolls and lots go on for years; what was not used lately is looked up again.
    private const int MostCached = 10_000;

    private readonly Dictionary<string, long> _codes = new(StringComparer.Ordinal);
    private readonly SqliteCommand _findCode;
    private readonly SqliteCommand _insertLabel;
    private readonly SqliteCommand _insertValue;

    public SeriesInserter(SqliteConnection connection)
    {
        _findCode = new SqliteCommand("SELECT code FROM label WHERE text = @text", connection);
        _findCode.Parameters.Add("@text", SqliteType.Text);
        _insertLabel = new SqliteCommand("INSERT INTO label (text) VALUES (@text) RETURNING code", connection);
        _insertLabel.Parameters.Add("@text", SqliteType.Text);
        _insertValue = new SqliteCommand(
            """
            INSERT INTO series_value (line, measurand, measured_at, sequence, value, product, lot, roll, instrument, across_mm, along_m)
            VALUES (@line, @measurand, @measured_at, @sequence, @value, @product, @lot, @roll, @instrument, @across_mm, @along_m)
            """,
            connection);
        foreach (var parameter in new[] { "@line", "@measurand", "@measured_at", "@sequence", "@value", "@product", "@lot", "@roll", "@instrument", "@across_mm", "@along_m" })
        {
            _insertValue.Parameters.Add(new SqliteParameter { ParameterName = parameter });
        }
    }

    /// <summary>Inserts the values of a reading. Call within the transaction that inserts the reading.</summary>
    public void Insert(long sequence, ReadingEntry entry, SqliteTransaction transaction)
    {
        if (entry.Values.IsEmpty)
        {
            return;
        }

        _findCode.Transaction = transaction;
        _insertLabel.Transaction = transaction;
        _insertValue.Transaction = transaction;
        var parameters = _insertValue.Parameters;
        parameters[0].Value = Code(entry.Line);
        parameters[2].Value = entry.MeasuredAt.UtcTicks;
        parameters[3].Value = sequence;
        parameters[5].Value = Code(entry.Product);
        parameters[6].Value = Code(entry.Lot);
        parameters[7].Value = Code(entry.Roll);
        parameters[8].Value = Code(entry.Instrument);
        parameters[9].Value = entry.AcrossMm is { } across ? across : DBNull.Value;
        parameters[10].Value = entry.AlongM is { } along ? along : DBNull.Value;
        foreach (var (measurand, value) in entry.Values)
        {
            parameters[1].Value = Code(measurand);
            parameters[4].Value = value;
            _insertValue.ExecuteNonQuery();
        }
    }

    /// <summary>Inserts one value. Call within a transaction.</summary>
    public void Insert(SeriesValue value, SqliteTransaction transaction)
    {
        var entry = new ReadingEntry
        {
            Id = default,
            MeasuredAt = new DateTimeOffset(value.MeasuredAtTicks, TimeSpan.Zero),
            Line = value.Line,
            Product = value.Product,
            Lot = value.Lot,
            Roll = value.Roll,
            Instrument = value.Instrument,
            AcrossMm = value.AcrossMm,
            AlongM = value.AlongM,
            Measurement = default,
            Method = default,
            Evaluation = default,
            SoftwareVersion = "",
            Values = [new MeasurandValue(value.Measurand, value.Value)],
        };
        Insert(value.Sequence, entry, transaction);
    }

    /// <summary>Forgets every code: those of a transaction that was rolled back are given again to other texts.</summary>
    public void Forget() => _codes.Clear();

    public void Dispose()
    {
        _findCode.Dispose();
        _insertLabel.Dispose();
        _insertValue.Dispose();
    }

    private long Code(string text)
    {
        if (_codes.TryGetValue(text, out var known))
        {
            return known;
        }

        _findCode.Parameters[0].Value = text;
        if (_findCode.ExecuteScalar() is not long code)
        {
            _insertLabel.Parameters[0].Value = text;
            code = (long)_insertLabel.ExecuteScalar()!;
        }

        if (_codes.Count >= MostCached)
        {
            _codes.Clear();
        }

        _codes.Add(text, code);
        return code;
    }
}
