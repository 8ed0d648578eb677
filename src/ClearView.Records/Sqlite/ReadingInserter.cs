using System.Data.Common;

using ClearView.Records.Audit;
using ClearView.Records.Model;
using ClearView.Records.Sql;

using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>Writes readings, and their values into the series, through prepared commands of one connection.</summary>
internal sealed class ReadingInserter : IDisposable
{
    private readonly SqliteCommand _insert;
    private readonly SeriesInserter _series;
    private readonly LinkInserter _links;
    private DbCommand? _find;

    public ReadingInserter(SqliteConnection connection, LinkInserter links)
    {
        _links = links;
        _insert = new SqliteCommand(
            """
            INSERT INTO reading (sequence, id, measured_at, recorded_at, line, product, lot, roll, specimen, software_version,
                                 method, measurement, evaluation, verdict, instrument, across_mm, along_m,
                                 origin, correction_note, picture_info)
            VALUES (@sequence, @id, @measured_at, @recorded_at, @line, @product, @lot, @roll, @specimen, @software_version,
                    @method, @measurement, @evaluation, @verdict, @instrument, @across_mm, @along_m,
                    @origin, @correction_note, @picture_info)
            RETURNING sequence
            """,
            connection);
        _series = new SeriesInserter(connection);
    }

    /// <summary>Inserts a reading, unless its identifier is taken. Call within a transaction.</summary>
    public AppendOutcome Insert(ReadingEntry entry, DateTimeOffset now, SqliteTransaction transaction, IStoreDatabase database)
    {
        _find ??= ReadingRows.FindCommand(transaction.Connection!, database);
        if (ReadingRows.Find(_find, transaction, database, entry.Id) is { } stored)
        {
            return new AppendOutcome(stored, alreadyStored: true);
        }

        var connection = transaction.Connection!;
        StoredReading? corrected = null;
        if (entry.Corrects is { } corrects && CorrectionRows.Check(connection, transaction, database, corrects, out corrected) is { } refusal)
        {
            return new AppendOutcome(refusal);
        }

        var sequence = InsertReading(entry, now, transaction);
        _series.Insert(sequence, entry, transaction);
        var reading = new StoredReading(entry.WithoutParts(), now, sequence)
        {
            CorrectedSequence = corrected?.Sequence ?? 0,
            CorrectedLine = corrected?.Entry.Line ?? "",
        };
        if (entry.Corrects is not null)
        {
            CorrectionRows.Insert(connection, transaction, database, reading);
        }

        if (!entry.Picture.IsEmpty)
        {
            PictureRows.Insert(connection, transaction, entry.Line, sequence, entry.Picture);
        }

        _links.Append(RecordKey.Reading(sequence), RecordHash.Of(reading, entry.Values, RecordHash.OfPicture(entry.Picture.Span)), transaction);
        return new AppendOutcome(reading, alreadyStored: false);
    }

    /// <summary>Inserts a reading as it was stored elsewhere, without its values.</summary>
    public void Import(StoredReading reading, SqliteTransaction transaction, IStoreDatabase database)
    {
        InsertReading(reading.Entry, reading.RecordedAt, transaction, reading.Sequence);
        if (reading.Entry.Corrects is not null)
        {
            CorrectionRows.Insert(transaction.Connection!, transaction, database, reading);
        }
    }

    /// <summary>Inserts a value of a series as it was stored elsewhere.</summary>
    public void Import(SeriesValue value, SqliteTransaction transaction) => _series.Insert(value, transaction);

    /// <summary>Forgets what a transaction wrote that was rolled back.</summary>
    public void Forget() => _series.Forget();

    public void Dispose()
    {
        _find?.Dispose();
        _insert.Dispose();
        _series.Dispose();
    }

    private static object OrNull(ReadOnlyMemory<byte> payload) => payload.IsEmpty ? DBNull.Value : payload.ToArray();

    private long InsertReading(ReadingEntry entry, DateTimeOffset now, SqliteTransaction transaction, long? sequence = null)
    {
        _insert.Transaction = transaction;
        var parameters = _insert.Parameters;
        parameters.Clear();
        parameters.AddWithValue("@sequence", sequence is { } place ? place : DBNull.Value);
        parameters.AddWithValue("@id", entry.Id.ToByteArray(bigEndian: true));
        parameters.AddWithValue("@measured_at", entry.MeasuredAt.UtcTicks);
        parameters.AddWithValue("@recorded_at", now.UtcTicks);
        parameters.AddWithValue("@line", entry.Line);
        parameters.AddWithValue("@product", entry.Product);
        parameters.AddWithValue("@lot", entry.Lot);
        parameters.AddWithValue("@roll", entry.Roll);
        parameters.AddWithValue("@specimen", entry.Specimen);
        parameters.AddWithValue("@software_version", entry.SoftwareVersion);
        parameters.AddWithValue("@method", entry.Method.ToArray());
        parameters.AddWithValue("@measurement", entry.Measurement.ToArray());
        parameters.AddWithValue("@evaluation", entry.Evaluation.ToArray());
        parameters.AddWithValue("@verdict", OrNull(entry.Verdict));
        parameters.AddWithValue("@instrument", entry.Instrument);
        parameters.AddWithValue("@across_mm", entry.AcrossMm is { } across ? across : DBNull.Value);
        parameters.AddWithValue("@along_m", entry.AlongM is { } along ? along : DBNull.Value);
        parameters.AddWithValue("@origin", OrNull(entry.Origin));
        parameters.AddWithValue("@correction_note", OrNull(entry.CorrectionNote));
        parameters.AddWithValue("@picture_info", OrNull(entry.PictureInfo));
        return (long)_insert.ExecuteScalar()!;
    }
}
