using System.Data.Common;

using ClearView.Records.Model;
using ClearView.Records.Sql;

namespace ClearView.Records.Audit;

/// <summary>Readings with their values, as they stand in the store.</summary>
/// <param name="connection">A connection within a transaction.</param>
/// <param name="transaction">The transaction.</param>
/// <param name="queries">Questions in the way of the engine.</param>
internal sealed class ReadingRecords(DbConnection connection, DbTransaction? transaction, IAuditQueries queries) : IRecordSource
{
    private readonly LabelTexts _labels = new(connection, transaction);
    private List<long>? _measurands;

    /// <summary>Values that belonged to the readings whose hashes were asked for.</summary>
    public long ValueCount { get; private set; }

    /// <summary>Pictures that belonged to them.</summary>
    public long PictureCount { get; private set; }

    /// <summary>Corrections that belonged to them.</summary>
    public long CorrectionCount { get; private set; }

    /// <inheritdoc/>
    public bool Keeps(string kind) => kind == RecordKey.ReadingKind;

    /// <inheritdoc/>
    public IReadOnlyDictionary<RecordKey, ReadOnlyMemory<byte>> Hashes(IReadOnlyList<RecordKey> records)
    {
        var rows = Readings([.. records.Where(record => record.Name.Length == 0).Select(record => record.Number)]).ToLookup(reading => reading.Sequence);
        var readings = rows.Where(same => same.Count() == 1).Select(same => same.First()).ToList();
        var values = Values(readings);

        // Two rows under one number: one of them is not what was stored.
        var hashes = rows.Where(same => same.Count() > 1).ToDictionary(same => RecordKey.Reading(same.Key), _ => ReadOnlyMemory<byte>.Empty);
        foreach (var reading in readings)
        {
            // Pictures one at a time: each may take megabytes.
            var picture = RecordHash.OfPicture(reading.Entry.PictureInfo.IsEmpty ? [] : PictureRows.Find(connection, transaction, reading.Entry.Line, reading.Sequence) ?? []);
            PictureCount += picture.Length > 0 ? 1 : 0;
            CorrectionCount += reading.Entry.Corrects is null ? 0 : 1;
            if (!IsOfItsLine(reading))
            {
                hashes[RecordKey.Reading(reading.Sequence)] = ReadOnlyMemory<byte>.Empty;
                continue;
            }

            hashes[RecordKey.Reading(reading.Sequence)] = !values.TryGetValue(reading.Sequence, out var own)
                ? RecordHash.Of(reading, [], picture)
                : own is null ? ReadOnlyMemory<byte>.Empty : RecordHash.Of(reading, own, picture);
        }

        return hashes;
    }

    /// <inheritdoc/>
    public long Count() => (long)Scalar("SELECT count(*) FROM reading")!;

    /// <inheritdoc/>
    public RecordKey? FirstWithoutLink() =>
        Scalar(
            """
            SELECT min(sequence) FROM reading
            WHERE NOT EXISTS (SELECT 1 FROM link WHERE kind = 'reading' AND name = '' AND number = reading.sequence)
            """) is long sequence
            ? RecordKey.Reading(sequence)
            : null;

    /// <summary>Whether values, pictures and corrections are all of readings whose hashes were asked for.</summary>
    public bool AreAllPartsFound() =>
        (long)Scalar("SELECT count(*) FROM series_value")! == ValueCount
        && (long)Scalar("SELECT count(*) FROM picture")! == PictureCount + OfRetired("picture", "sequence")
        && (long)Scalar("SELECT count(*) FROM correction")! == CorrectionCount + OfRetired("correction", "by_sequence")
        && Scalar(
            """
            SELECT 1 FROM correction JOIN reading_number AS corrected ON corrected.sequence = superseded_sequence
            WHERE corrected.line <> correction.line LIMIT 1
            """) is null;

    /// <summary>
    /// The first identifier that belongs to no reading: neither to one in the store nor to one that was retired with its month. It
    /// would keep a reading of that identifier from being stored.
    /// </summary>
    public RecordKey? FirstIdentifierWithoutReading()
    {
        // Numbers first: the readings were all found through their identifiers.
        var stray = (long)Scalar($"SELECT count(*) FROM {queries.SequenceTable}")! == Count() + (long)Scalar("SELECT count(*) FROM retired_reading")!
            ? null
            : Scalar(
                $"""
                SELECT min(sequence) FROM {queries.SequenceTable} AS known
                WHERE NOT EXISTS (SELECT 1 FROM reading WHERE reading.line = known.line AND reading.measured_at = known.measured_at AND reading.id = known.id)
                    AND NOT EXISTS (SELECT 1 FROM retired_reading WHERE retired_reading.sequence = known.sequence)
                """);
        return (stray as long? ?? Scalar(
            """
            SELECT min(sequence) FROM retired_reading
            WHERE NOT EXISTS (SELECT 1 FROM retired_month WHERE retired_month.month = retired_reading.month AND retired_month.part = retired_reading.part)
            """) as long?) is { } sequence
            ? RecordKey.Reading(sequence)
            : null;
    }

    /// <summary>The identifier of a reading.</summary>
    public Guid? IdOf(long sequence) => Readings([sequence]) is [var reading] ? reading.Entry.Id : null;

    private List<StoredReading> Readings(List<long> sequences)
    {
        using var command = queries.Readings(connection, sequences);
        command.Transaction = transaction;
        using var rows = command.ExecuteReader();
        List<StoredReading> readings = [];
        while (rows.Read())
        {
            readings.Add(ReadingRows.Read(rows));
        }

        return readings;
    }

    // Pictures and corrections stay in their tables when a month is retired.
    private long OfRetired(string table, string column) => Scalar("SELECT 1 FROM retired_month LIMIT 1") is null
        ? 0
        : (long)Scalar($"SELECT count(*) FROM {table} WHERE {column} IN (SELECT sequence FROM retired_reading)")!;

    // The line of a correction is in no hash: it has to be that of the reading that is corrected, where that is in the store.
    private bool IsOfItsLine(StoredReading reading)
    {
        if (reading.Entry.Corrects is null)
        {
            return true;
        }

        using var command = Commands.Make(connection, "SELECT line FROM reading_number WHERE sequence = @sequence");
        command.Transaction = transaction;
        command.Add("@sequence", reading.CorrectedSequence);
        return command.ExecuteScalar() is not string line || line == reading.CorrectedLine;
    }

    // The values of each reading; null where one of them says other than its reading.
    private Dictionary<long, List<MeasurandValue>?> Values(List<StoredReading> readings)
    {
        Dictionary<long, List<MeasurandValue>?> values = [];
        var bySequence = readings.ToDictionary(reading => reading.Sequence, reading => reading.Entry);
        List<SeriesPlace> places =
        [
            .. readings.Select(reading => (Line: _labels.CodeOf(reading.Entry.Line), reading)).Where(pair => pair.Line is not null)
                .Select(pair => new SeriesPlace(pair.Line!.Value, pair.reading.Entry.MeasuredAt.UtcTicks, pair.reading.Sequence)),
        ];
        using var command = queries.Values(connection, places, _measurands ??= Measurands());
        command.Transaction = transaction;
        List<(long Sequence, double Value, long[] Codes, double? AcrossMm, double? AlongM)> found = [];
        using (var rows = command.ExecuteReader())
        {
            while (rows.Read())
            {
                found.Add((
                    rows.GetInt64(0),
                    rows.GetDouble(2),
                    [rows.GetInt64(1), rows.GetInt64(3), rows.GetInt64(4), rows.GetInt64(5), rows.GetInt64(6)],
                    rows.IsDBNull(7) ? null : rows.GetDouble(7),
                    rows.IsDBNull(8) ? null : rows.GetDouble(8)));
            }
        }

        ValueCount += found.Count;
        foreach (var (sequence, value, codes, acrossMm, alongM) in found)
        {
            var entry = bySequence[sequence];
            var texts = Array.ConvertAll(codes, _labels.TextOf);
            var belongs = texts[0] is not null && texts[1] == entry.Product && texts[2] == entry.Lot && texts[3] == entry.Roll
                && texts[4] == entry.Instrument && acrossMm == entry.AcrossMm && alongM == entry.AlongM;
            if (!belongs)
            {
                values[sequence] = null;
            }
            else if (!values.TryGetValue(sequence, out var own))
            {
                values.Add(sequence, [new MeasurandValue(texts[0]!, value)]);
            }
            else
            {
                own?.Add(new MeasurandValue(texts[0]!, value));
            }
        }

        return values;
    }

    // Some dozens; in the snapshot they stay the same.
    private List<long> Measurands()
    {
        using var command = Commands.Make(connection, "SELECT DISTINCT measurand FROM series_value");
        command.Transaction = transaction;
        command.CommandTimeout = 0;
        using var rows = command.ExecuteReader();
        List<long> codes = [];
        while (rows.Read())
        {
            codes.Add(rows.GetInt64(0));
        }

        return codes;
    }

    private object? Scalar(string sql)
    {
        using var command = Commands.Make(connection, sql);
        command.Transaction = transaction;
        command.CommandTimeout = 0;
        return command.ExecuteScalar();
    }
}
