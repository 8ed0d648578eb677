using ClearView.Records.Audit;
using ClearView.Records.Model;

using Npgsql;

using NpgsqlTypes;

namespace ClearView.Records.Postgres;

/// <summary>Sends rows in the binary form of COPY, many at a time.</summary>
/// <param name="connection">A connection within a transaction.</param>
internal sealed class RowCopy(NpgsqlConnection connection)
{
    /// <summary>Sends identifiers.</summary>
    public async Task IdentifiersAsync(IEnumerable<StoredReading> readings)
    {
        var copy = await connection.BeginBinaryImportAsync(
            "COPY reading_id (id, line, measured_at, sequence) FROM STDIN (FORMAT BINARY)").ConfigureAwait(false);
        await using var ofCall = copy.ConfigureAwait(false);
        foreach (var (entry, _, sequence) in readings)
        {
            await copy.StartRowAsync().ConfigureAwait(false);
            copy.Write(entry.Id, NpgsqlDbType.Uuid);
            copy.Write(entry.Line, NpgsqlDbType.Text);
            copy.Write(entry.MeasuredAt.UtcTicks, NpgsqlDbType.Bigint);
            copy.Write(sequence, NpgsqlDbType.Bigint);
        }

        await copy.CompleteAsync().ConfigureAwait(false);
    }

    /// <summary>Sends readings, without their values.</summary>
    public async Task ReadingsAsync(IEnumerable<StoredReading> readings)
    {
        var copy = await connection.BeginBinaryImportAsync(
            """
            COPY reading (line, measured_at, id, sequence, recorded_at, product, lot, roll, specimen, instrument, software_version,
                          across_mm, along_m, method, measurement, evaluation, verdict, origin, correction_note, picture_info) FROM STDIN (FORMAT BINARY)
            """).ConfigureAwait(false);
        await using var ofCall = copy.ConfigureAwait(false);
        foreach (var (entry, recordedAt, sequence) in readings)
        {
            await copy.StartRowAsync().ConfigureAwait(false);
            copy.Write(entry.Line, NpgsqlDbType.Text);
            copy.Write(entry.MeasuredAt.UtcTicks, NpgsqlDbType.Bigint);
            copy.Write(entry.Id, NpgsqlDbType.Uuid);
            copy.Write(sequence, NpgsqlDbType.Bigint);
            copy.Write(recordedAt.UtcTicks, NpgsqlDbType.Bigint);
            foreach (var text in new[] { entry.Product, entry.Lot, entry.Roll, entry.Specimen, entry.Instrument, entry.SoftwareVersion })
            {
                copy.Write(text, NpgsqlDbType.Text);
            }

            WriteOrNull(copy, entry.AcrossMm);
            WriteOrNull(copy, entry.AlongM);
            foreach (var payload in new[] { entry.Method, entry.Measurement, entry.Evaluation })
            {
                copy.Write(payload, NpgsqlDbType.Bytea);
            }

            foreach (var payload in new[] { entry.Verdict, entry.Origin, entry.CorrectionNote, entry.PictureInfo })
            {
                WriteOrNull(copy, payload);
            }
        }

        await copy.CompleteAsync().ConfigureAwait(false);
    }

    /// <summary>Sends values of series.</summary>
    public async Task ValuesAsync(IEnumerable<SeriesValue> values, LabelCodes codes)
    {
        var copy = await connection.BeginBinaryImportAsync(
            """
            COPY series_value (line, measurand, measured_at, sequence, value, product, lot, roll, instrument, across_mm, along_m)
            FROM STDIN (FORMAT BINARY)
            """).ConfigureAwait(false);
        await using var ofCall = copy.ConfigureAwait(false);
        foreach (var value in values)
        {
            await copy.StartRowAsync().ConfigureAwait(false);
            copy.Write(codes[value.Line], NpgsqlDbType.Bigint);
            copy.Write(codes[value.Measurand], NpgsqlDbType.Bigint);
            copy.Write(value.MeasuredAtTicks, NpgsqlDbType.Bigint);
            copy.Write(value.Sequence, NpgsqlDbType.Bigint);
            copy.Write(OneZero(value.Value), NpgsqlDbType.Double);
            copy.Write(codes[value.Product], NpgsqlDbType.Bigint);
            copy.Write(codes[value.Lot], NpgsqlDbType.Bigint);
            copy.Write(codes[value.Roll], NpgsqlDbType.Bigint);
            copy.Write(codes[value.Instrument], NpgsqlDbType.Bigint);
            WriteOrNull(copy, value.AcrossMm);
            WriteOrNull(copy, value.AlongM);
        }

        await copy.CompleteAsync().ConfigureAwait(false);
    }

    /// <summary>Sends links.</summary>
    public async Task LinksAsync(IEnumerable<Link> links)
    {
        var copy = await connection.BeginBinaryImportAsync(
            "COPY link (chain, position, number, kind, name, record_hash, hash, covers) FROM STDIN (FORMAT BINARY)").ConfigureAwait(false);
        await using var ofCall = copy.ConfigureAwait(false);
        foreach (var link in links)
        {
            await copy.StartRowAsync().ConfigureAwait(false);
            copy.Write(link.Chain, NpgsqlDbType.Bigint);
            copy.Write(link.Position, NpgsqlDbType.Bigint);
            copy.Write(link.Record.Number, NpgsqlDbType.Bigint);
            copy.Write(link.Record.Kind, NpgsqlDbType.Text);
            copy.Write(link.Record.Name, NpgsqlDbType.Text);
            copy.Write(link.RecordHash, NpgsqlDbType.Bytea);
            copy.Write(link.Hash, NpgsqlDbType.Bytea);
            WriteOrNull(copy, link.Covers);
        }

        await copy.CompleteAsync().ConfigureAwait(false);
    }

    private static void WriteOrNull(NpgsqlBinaryImporter copy, ReadOnlyMemory<byte> payload)
    {
        if (payload.IsEmpty)
        {
            copy.WriteNull();
        }
        else
        {
            copy.Write(payload, NpgsqlDbType.Bytea);
        }
    }

    private static void WriteOrNull(NpgsqlBinaryImporter copy, double? value)
    {
        if (value is { } number)
        {
            copy.Write(OneZero(number), NpgsqlDbType.Double);
        }
        else
        {
            copy.WriteNull();
        }
    }

    // SQLite keeps whole numbers as integers, which have one zero; a series must not depend on its engine.
    private static double OneZero(double value) => value == 0 ? 0 : value;
}
