using System.Collections.Immutable;

using ClearView.Records.Model;
using ClearView.V1;

using Google.Protobuf;
using Google.Protobuf.WellKnownTypes;

using Method = ClearView.V1.Method;

namespace ClearView.Server.Mapping;

/// <summary>Readings on the wire to readings of the store and back.</summary>
internal static class ReadingMapper
{
    /// <summary>The store's form of a reading that was evaluated.</summary>
    public static ReadingEntry ToEntry(Guid id, Measurement measurement, Method method, Evaluation evaluation, Verdict? verdict)
    {
        var identification = measurement.Identification;
        return new ReadingEntry
        {
            Id = id,
            MeasuredAt = measurement.MeasuredAt.ToDateTimeOffset(),
            Line = identification.Line,
            Product = identification.Product,
            Lot = identification.Lot,
            Roll = identification.Roll,
            Specimen = identification.Specimen,
            Instrument = measurement.Conditions.Instrument,
            AcrossMm = identification.Web is { HasAcrossMm: true } across ? across.AcrossMm : null,
            AlongM = identification.Web is { HasAlongM: true } along ? along.AlongM : null,
            Measurement = measurement.ToByteArray(),
            Method = method.ToByteArray(),
            Evaluation = evaluation.ToByteArray(),
            SoftwareVersion = SoftwareVersion.Text,
            Verdict = verdict is null ? [] : verdict.ToByteArray(),
            Values = ValuesOf(evaluation),
        };
    }

    /// <summary>The values of an evaluation, as series hold them.</summary>
    public static ImmutableArray<MeasurandValue> ValuesOf(Evaluation evaluation) =>
        [.. evaluation.Values.Select(value => new MeasurandValue(value.Measurand, value.Value))];

    /// <summary>The store's form of signals: a reading that holds nothing else. Empty where there are none.</summary>
    public static byte[] ToBytes(IReadOnlyList<RaisedSignal> signals) => new Reading { Signals = { signals } }.ToByteArray();

    /// <summary>The signals of a stored reading.</summary>
    public static IReadOnlyList<RaisedSignal> SignalsOf(StoredReading stored) => Reading.Parser.ParseFrom(stored.Signals.Span).Signals;

    /// <summary>The wire's form of a stored reading.</summary>
    /// <param name="stored">The reading.</param>
    /// <param name="omitSpectra">Whether to leave out raw scans and reduced spectra.</param>
    public static Reading ToReading(StoredReading stored, bool omitSpectra = false)
    {
        var entry = stored.Entry;
        var reading = new Reading
        {
            ReadingId = ReadingIds.Write(entry.Id),
            Measurement = Measurement.Parser.ParseFrom(entry.Measurement.Span),
            Method = Method.Parser.ParseFrom(entry.Method.Span),
            Evaluation = Evaluation.Parser.ParseFrom(entry.Evaluation.Span),
            RecordedAt = stored.RecordedAt.ToTimestamp(),
            SoftwareVersion = entry.SoftwareVersion,
        };
        if (!entry.Verdict.IsEmpty)
        {
            reading.Verdict = Verdict.Parser.ParseFrom(entry.Verdict.Span);
        }

        reading.MergeFrom(stored.Signals.ToArray());
        if (!entry.Origin.IsEmpty)
        {
            reading.Origin = RecordedOrigin.Parser.ParseFrom(entry.Origin.Span);
        }

        if (!entry.CorrectionNote.IsEmpty)
        {
            reading.Corrects = Correction.Parser.ParseFrom(entry.CorrectionNote.Span);
        }

        if (!entry.PictureInfo.IsEmpty)
        {
            reading.Picture = PictureInfo.Parser.ParseFrom(entry.PictureInfo.Span);
        }

        if (stored.SupersededBy is { } by)
        {
            reading.SupersededBy = ReadingIds.Write(by);
        }

        if (omitSpectra)
        {
            reading.Measurement.Scans = null;
            reading.Evaluation.Spectra = null;
        }

        return reading;
    }
}
