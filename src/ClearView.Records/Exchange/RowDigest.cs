using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

using ClearView.Records.Model;
using ClearView.Records.Schema;

namespace ClearView.Records.Exchange;

/// <summary>Counts rows and runs a SHA-256 over them in a form that is the same in every engine.</summary>
/// <remarks>Numbers as 8 bytes, little-endian; texts in UTF-8 and payloads as they are, each behind its length.</remarks>
internal sealed class RowDigest : IDisposable
{
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private long _readings;
    private long _values;
    private long _documents;
    private long _signals;

    /// <summary>What was added so far.</summary>
    public StoreContents Contents => new(_readings, _values, _documents, _signals, Convert.ToHexStringLower(_hash.GetCurrentHash()));

    /// <summary>Adds a reading.</summary>
    public void Add(StoredReading reading)
    {
        var entry = reading.Entry;
        _readings++;
        Add(reading.Sequence);
        Add(reading.RecordedAt.UtcTicks);
        Add(entry.Id.ToByteArray(bigEndian: true));
        Add(entry.MeasuredAt.UtcTicks);
        foreach (var text in new[] { entry.Line, entry.Product, entry.Lot, entry.Roll, entry.Specimen, entry.Instrument, entry.SoftwareVersion })
        {
            Add(text);
        }

        Add(entry.AcrossMm);
        Add(entry.AlongM);
        Add(entry.Method.Span);
        Add(entry.Measurement.Span);
        Add(entry.Evaluation.Span);
        Add(entry.Verdict.Span);
        Add(reading.Signals.Span);
        _signals += reading.Signals.IsEmpty ? 0 : 1;
    }

    /// <summary>Adds a value of a series.</summary>
    public void Add(SeriesValue value)
    {
        _values++;
        foreach (var text in new[] { value.Line, value.Measurand, value.Product, value.Lot, value.Roll, value.Instrument })
        {
            Add(text);
        }

        Add(value.MeasuredAtTicks);
        Add(value.Sequence);
        Add((double?)value.Value);
        Add(value.AcrossMm);
        Add(value.AlongM);
    }

    /// <summary>Adds a document.</summary>
    public void Add(VersionedKind kind, StoredVersion version)
    {
        _documents++;
        Add(KindKeys.Of(kind));
        Add(version.Entry.Name);
        Add(version.Version);
        Add(version.StoredAt.UtcTicks);
        Add(version.Entry.StoredBy);
        Add(version.Entry.Description);
        Add(version.Entry.Body.Span);
    }

    /// <inheritdoc/>
    public void Dispose() => _hash.Dispose();

    private void Add(long number)
    {
        Span<byte> bytes = stackalloc byte[sizeof(long)];
        BinaryPrimitives.WriteInt64LittleEndian(bytes, number);
        _hash.AppendData(bytes);
    }

    // Absent is NaN, which no stored number is; zero has no sign in one of the engines.
    private void Add(double? number) => Add(BitConverter.DoubleToInt64Bits(number is { } some ? some == 0 ? 0 : some : double.NaN));

    private void Add(string text) => Add(Encoding.UTF8.GetBytes(text));

    private void Add(ReadOnlySpan<byte> bytes)
    {
        Add((long)bytes.Length);
        _hash.AppendData(bytes);
    }
}
