using System.Buffers;
using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

using ClearView.Records.Model;
using ClearView.Records.Schema;

namespace ClearView.Records.Audit;

/// <summary>Writes records in a form that is the same in every engine.</summary>
/// <remarks>Numbers as 8 bytes, little-endian; texts in UTF-8 and payloads as they are, each behind its length.</remarks>
internal sealed class CanonicalBytes
{
    private readonly ArrayBufferWriter<byte> _buffer = new(512);

    /// <summary>What was written since the last <see cref="Clear"/>.</summary>
    public ReadOnlySpan<byte> Written => _buffer.WrittenSpan;

    /// <summary>SHA-256 of what was written.</summary>
    public byte[] Sha256() => SHA256.HashData(_buffer.WrittenSpan);

    /// <summary>Starts anew.</summary>
    public void Clear() => _buffer.ResetWrittenCount();

    /// <summary>Writes a reading without its values.</summary>
    public void Add(StoredReading reading)
    {
        var entry = reading.Entry;
        Add(reading.Sequence);
        Add(reading.RecordedAt.UtcTicks);
        Add(entry.Id.ToByteArray(bigEndian: true));
        Add(entry.MeasuredAt.UtcTicks);
        Add(entry.Line);
        Add(entry.Product);
        Add(entry.Lot);
        Add(entry.Roll);
        Add(entry.Specimen);
        Add(entry.Instrument);
        Add(entry.SoftwareVersion);
        Add(entry.AcrossMm);
        Add(entry.AlongM);
        Add(entry.Method.Span);
        Add(entry.Measurement.Span);
        Add(entry.Evaluation.Span);
        Add(entry.Verdict.Span);
        Add(entry.Origin.Span);
        Add(entry.CorrectionNote.Span);
        Add(entry.PictureInfo.Span);
        Add(entry.Corrects is { } corrects ? corrects.ToByteArray(bigEndian: true) : []);
        Add(reading.CorrectedSequence);
    }

    /// <summary>Writes the values of a reading: their number, then each by the name of its measurand, in the order of names.</summary>
    public void Add(IReadOnlyCollection<MeasurandValue> values)
    {
        Add(values.Count);
        foreach (var (measurand, value) in values.OrderBy(value => value.Measurand, StringComparer.Ordinal))
        {
            Add(measurand);
            Add((double?)value);
        }
    }

    /// <summary>Writes a document.</summary>
    public void Add(VersionedKind kind, StoredVersion version)
    {
        Add(KindKeys.Of(kind));
        Add(version.Entry.Name);
        Add(version.Version);
        Add(version.StoredAt.UtcTicks);
        Add(version.Entry.StoredBy);
        Add(version.Entry.Description);
        Add(version.Entry.Body.Span);
    }

    /// <summary>Writes a number.</summary>
    public void Add(long number)
    {
        BinaryPrimitives.WriteInt64LittleEndian(_buffer.GetSpan(sizeof(long)), number);
        _buffer.Advance(sizeof(long));
    }

    // Absent is NaN, which no stored number is; zero has no sign in one of the engines.

    /// <summary>Writes a number that may be absent.</summary>
    public void Add(double? number) => Add(BitConverter.DoubleToInt64Bits(number is { } some ? some == 0 ? 0 : some : double.NaN));

    /// <summary>Writes a text.</summary>
    public void Add(string text)
    {
        var length = Encoding.UTF8.GetByteCount(text);
        Add((long)length);
        Encoding.UTF8.GetBytes(text, _buffer.GetSpan(length));
        _buffer.Advance(length);
    }

    /// <summary>Writes a payload.</summary>
    public void Add(ReadOnlySpan<byte> bytes)
    {
        Add((long)bytes.Length);
        _buffer.Write(bytes);
    }
}
