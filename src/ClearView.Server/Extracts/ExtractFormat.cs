using System.Text.Json;

using ClearView.Records.Audit;
using ClearView.Records.Model;
using ClearView.Server.Mapping;
using ClearView.V1;

using Google.Protobuf;

namespace ClearView.Server.Extracts;

/// <summary>How a reading stands in an extract: in words for a person, and its record for the one who computes it again.</summary>
internal static class ExtractFormat
{
    /// <summary>Names the form of the file.</summary>
    public const string Name = "ClearView audit extract 2";

    /// <summary>The form before, which holds no signals.</summary>
    public const string NameWithoutSignals = "ClearView audit extract 1";

    /// <summary>Writes a reading with its link, and with its signals and their link where it raised any.</summary>
    /// <param name="json">Where.</param>
    /// <param name="stored">The reading.</param>
    /// <param name="placed">Its link.</param>
    /// <param name="placedSignals">The link of its signals.</param>
    public static void Write(Utf8JsonWriter json, StoredReading stored, PlacedLink? placed, PlacedLink? placedSignals)
    {
        json.WriteStartObject();
        json.WritePropertyName("reading");
        json.WriteRawValue(Describe(stored));
        json.WritePropertyName("record");
        WriteRecord(json, stored);
        if (placed is not null)
        {
            json.WritePropertyName("link");
            WriteLink(json, placed);
        }

        if (!stored.Signals.IsEmpty)
        {
            json.WriteStartObject("signals");
            json.WritePropertyName("raised");
            json.WriteRawValue(DescribeSignals(stored.Signals));
            json.WriteBase64String("record", stored.Signals.Span);
            if (placedSignals is not null)
            {
                json.WritePropertyName("link");
                WriteLink(json, placedSignals);
            }

            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    /// <summary>Signals as the contract gives them, as JSON.</summary>
    public static string DescribeSignals(ReadOnlyMemory<byte> signals) => JsonFormatter.Default.Format(Reading.Parser.ParseFrom(signals.Span));

    /// <summary>The reading as the contract gives it, as JSON, without its signals: they stand beside it, since they have a link of their own.</summary>
    public static string Describe(StoredReading stored) =>
        JsonFormatter.Default.Format(ReadingMapper.ToReading(stored with { Signals = ReadOnlyMemory<byte>.Empty }));

    /// <summary>The record as it was written.</summary>
    /// <exception cref="FormatException">It is none.</exception>
    public static StoredReading ReadRecord(JsonElement record, Guid? supersededBy)
    {
        var entry = new ReadingEntry
        {
            Id = record.GetProperty("id").GetGuid(),
            MeasuredAt = Time(record, "measuredAtTicks"),
            Line = Text(record, "line"),
            Product = Text(record, "product"),
            Lot = Text(record, "lot"),
            Roll = Text(record, "roll"),
            Specimen = Text(record, "specimen"),
            Instrument = Text(record, "instrument"),
            SoftwareVersion = Text(record, "softwareVersion"),
            AcrossMm = Number(record, "acrossMm"),
            AlongM = Number(record, "alongM"),
            Method = Bytes(record, "method"),
            Measurement = Bytes(record, "measurement"),
            Evaluation = Bytes(record, "evaluation"),
            Verdict = Bytes(record, "verdict"),
            Origin = Bytes(record, "origin"),
            CorrectionNote = Bytes(record, "correction"),
            PictureInfo = Bytes(record, "picture"),
            Corrects = record.TryGetProperty("corrects", out var corrects) ? corrects.GetGuid() : null,
        };
        return new StoredReading(entry, Time(record, "recordedAtTicks"), record.GetProperty("sequence").GetInt64())
        {
            CorrectedSequence = record.GetProperty("correctedSequence").GetInt64(),
            SupersededBy = supersededBy,
        };
    }

    /// <summary>The hash of a record, with the values of its evaluation and the hash of its picture.</summary>
    public static byte[] HashOf(StoredReading stored)
    {
        var evaluation = Evaluation.Parser.ParseFrom(stored.Entry.Evaluation.Span);
        List<MeasurandValue> values = [.. evaluation.Values.Select(value => new MeasurandValue(value.Measurand, value.Value))];
        var picture = stored.Entry.PictureInfo.IsEmpty
            ? []
            : Convert.FromHexString(PictureInfo.Parser.ParseFrom(stored.Entry.PictureInfo.Span).Sha256);
        return RecordHash.Of(stored, values, picture);
    }

    private static void WriteRecord(Utf8JsonWriter json, StoredReading stored)
    {
        var entry = stored.Entry;
        json.WriteStartObject();
        json.WriteNumber("sequence", stored.Sequence);
        json.WriteNumber("recordedAtTicks", stored.RecordedAt.UtcTicks);
        json.WriteString("id", entry.Id);
        json.WriteNumber("measuredAtTicks", entry.MeasuredAt.UtcTicks);
        json.WriteString("line", entry.Line);
        json.WriteString("product", entry.Product);
        json.WriteString("lot", entry.Lot);
        json.WriteString("roll", entry.Roll);
        json.WriteString("specimen", entry.Specimen);
        json.WriteString("instrument", entry.Instrument);
        json.WriteString("softwareVersion", entry.SoftwareVersion);
        if (entry.AcrossMm is { } across)
        {
            json.WriteNumber("acrossMm", across);
        }

        if (entry.AlongM is { } along)
        {
            json.WriteNumber("alongM", along);
        }

        json.WriteBase64String("method", entry.Method.Span);
        json.WriteBase64String("measurement", entry.Measurement.Span);
        json.WriteBase64String("evaluation", entry.Evaluation.Span);
        json.WriteBase64String("verdict", entry.Verdict.Span);
        json.WriteBase64String("origin", entry.Origin.Span);
        json.WriteBase64String("correction", entry.CorrectionNote.Span);
        json.WriteBase64String("picture", entry.PictureInfo.Span);
        if (entry.Corrects is { } corrects)
        {
            json.WriteString("corrects", corrects);
        }

        json.WriteNumber("correctedSequence", stored.CorrectedSequence);
        json.WriteEndObject();
    }

    private static void WriteLink(Utf8JsonWriter json, PlacedLink placed)
    {
        json.WriteStartObject();
        json.WriteNumber("chain", placed.Link.Chain);
        json.WriteNumber("position", placed.Link.Position);
        json.WriteString("previousSha256", Convert.ToHexStringLower(placed.PreviousHash.Span));
        json.WriteString("recordSha256", Convert.ToHexStringLower(placed.Link.RecordHash.Span));
        json.WriteString("sha256", Convert.ToHexStringLower(placed.Link.Hash.Span));
        json.WriteEndObject();
    }

    private static string Text(JsonElement record, string name) => record.GetProperty(name).GetString() ?? "";

    private static byte[] Bytes(JsonElement record, string name) => record.GetProperty(name).GetBytesFromBase64();

    private static DateTimeOffset Time(JsonElement record, string name) => new(record.GetProperty(name).GetInt64(), TimeSpan.Zero);

    private static double? Number(JsonElement record, string name) => record.TryGetProperty(name, out var number) ? number.GetDouble() : null;
}
