using ClearView.Records.Model;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Writes readings through prepared commands of one connection.</summary>
internal sealed class ReadingInserter : IDisposable
{
    private readonly SqliteCommand _find;
    private readonly SqliteCommand _findValues;
    private readonly SqliteCommand _insert;
    private readonly SqliteCommand _insertValue;

    public ReadingInserter(SqliteConnection connection)
    {
        _find = ReadingRows.FindCommand(connection);
        _findValues = ReadingRows.ValuesCommand(connection);
        _insert = new SqliteCommand(
            """
            INSERT INTO reading (id, measured_at, recorded_at, line, product, lot, roll, specimen, software_version,
                                 method, measurement, evaluation)
            VALUES (@id, @measured_at, @recorded_at, @line, @product, @lot, @roll, @specimen, @software_version,
                    @method, @measurement, @evaluation)
            RETURNING sequence
            """,
            connection);
        _insertValue = new SqliteCommand(
            "INSERT INTO reading_value (sequence, ordinal, measurand, value) VALUES (@sequence, @ordinal, @measurand, @value)",
            connection);
    }

    /// <summary>Inserts a reading, unless its identifier is taken. Call within a transaction.</summary>
    public AppendOutcome Insert(ReadingEntry entry, DateTimeOffset now, SqliteTransaction transaction)
    {
        if (Find(entry.Id, transaction) is { } stored)
        {
            return new AppendOutcome(stored, AlreadyStored: true);
        }

        // Detached from the caller's buffers, and cut to the store's resolution, as a later reader will see it.
        var reading = new StoredReading(
            entry with
            {
                MeasuredAt = entry.MeasuredAt.ToUniversalTime(),
                Measurement = entry.Measurement.ToArray(),
                Method = entry.Method.ToArray(),
                Evaluation = entry.Evaluation.ToArray(),
            },
            now);
        InsertValues(InsertReading(reading, transaction), reading.Entry, transaction);
        return new AppendOutcome(reading, AlreadyStored: false);
    }

    public void Dispose()
    {
        _find.Dispose();
        _findValues.Dispose();
        _insert.Dispose();
        _insertValue.Dispose();
    }

    private StoredReading? Find(Guid id, SqliteTransaction transaction)
    {
        _find.Transaction = transaction;
        _findValues.Transaction = transaction;
        _find.Parameters[0].Value = id.ToByteArray(bigEndian: true);
        using var rows = _find.ExecuteReader();
        return rows.Read() ? ReadingRows.Read(rows, _findValues) : null;
    }

    private long InsertReading(StoredReading reading, SqliteTransaction transaction)
    {
        var (entry, recordedAt) = reading;
        _insert.Transaction = transaction;
        var parameters = _insert.Parameters;
        parameters.Clear();
        parameters.AddWithValue("@id", entry.Id.ToByteArray(bigEndian: true));
        parameters.AddWithValue("@measured_at", entry.MeasuredAt.UtcTicks);
        parameters.AddWithValue("@recorded_at", recordedAt.UtcTicks);
        parameters.AddWithValue("@line", entry.Line);
        parameters.AddWithValue("@product", entry.Product);
        parameters.AddWithValue("@lot", entry.Lot);
        parameters.AddWithValue("@roll", entry.Roll);
        parameters.AddWithValue("@specimen", entry.Specimen);
        parameters.AddWithValue("@software_version", entry.SoftwareVersion);
        parameters.AddWithValue("@method", entry.Method.ToArray());
        parameters.AddWithValue("@measurement", entry.Measurement.ToArray());
        parameters.AddWithValue("@evaluation", entry.Evaluation.ToArray());
        return (long)_insert.ExecuteScalar()!;
    }

    private void InsertValues(long sequence, ReadingEntry entry, SqliteTransaction transaction)
    {
        _insertValue.Transaction = transaction;
        for (var ordinal = 0; ordinal < entry.Values.Length; ordinal++)
        {
            var parameters = _insertValue.Parameters;
            parameters.Clear();
            parameters.AddWithValue("@sequence", sequence);
            parameters.AddWithValue("@ordinal", ordinal);
            parameters.AddWithValue("@measurand", entry.Values[ordinal].Measurand);
            parameters.AddWithValue("@value", entry.Values[ordinal].Value);
            _insertValue.ExecuteNonQuery();
        }
    }
}
