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

        Bind(transaction, entry.Line, entry.MeasuredAt.UtcTicks, sequence, entry.Product, entry.Lot, entry.Roll, entry.Instrument, entry.AcrossMm, entry.AlongM);
        foreach (var (measurand, value) in entry.Values)
        {
            Insert(measurand, value);
        }
    }

    /// <summary>Inserts one value. Call within a transaction.</summary>
    public void Insert(SeriesValue row, SqliteTransaction transaction)
    {
        Bind(transaction, row.Line, row.MeasuredAtTicks, row.Sequence, row.Product, row.Lot, row.Roll, row.Instrument, row.AcrossMm, row.AlongM);
        Insert(row.Measurand, row.Value);
    }

    /// <summary>Forgets every code: those of a transaction that was rolled back are given again to other texts.</summary>
    public void Forget() => _codes.Clear();

    public void Dispose()
    {
        _findCode.Dispose();
        _insertLabel.Dispose();
        _insertValue.Dispose();
    }

    // What the values of one reading share.
    private void Bind(
        SqliteTransaction transaction,
        string line,
        long measuredAtTicks,
        long sequence,
        string product,
        string lot,
        string roll,
        string instrument,
        double? acrossMm,
        double? alongM)
    {
        _findCode.Transaction = transaction;
        _insertLabel.Transaction = transaction;
        _insertValue.Transaction = transaction;
        var parameters = _insertValue.Parameters;
        parameters[0].Value = Code(line);
        parameters[2].Value = measuredAtTicks;
        parameters[3].Value = sequence;
        parameters[5].Value = Code(product);
        parameters[6].Value = Code(lot);
        parameters[7].Value = Code(roll);
        parameters[8].Value = Code(instrument);
        parameters[9].Value = acrossMm is { } across ? across : DBNull.Value;
        parameters[10].Value = alongM is { } along ? along : DBNull.Value;
    }

    private void Insert(string measurand, double value)
    {
        _insertValue.Parameters[1].Value = Code(measurand);
        _insertValue.Parameters[4].Value = value;
        _insertValue.ExecuteNonQuery();
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
