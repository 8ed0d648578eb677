using System.Security.Cryptography;

using ClearView.Records.Audit;
using ClearView.Records.Model;

namespace ClearView.Records.Exchange;

/// <summary>Counts rows and runs a SHA-256 over their canonical bytes.</summary>
internal sealed class RowDigest : IDisposable
{
    private readonly IncrementalHash _hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
    private readonly CanonicalBytes _row = new();
    private long _readings;
    private long _values;
    private long _documents;
    private long _signals;
    private long _links;

    /// <summary>What was added so far.</summary>
    public StoreContents Contents =>
        new(_readings, _values, _documents, _signals, _links, Convert.ToHexStringLower(_hash.GetCurrentHash()));

    /// <summary>Adds a reading.</summary>
    public void Add(StoredReading reading)
    {
        _readings++;
        _signals += reading.Signals.IsEmpty ? 0 : 1;
        _row.Add(reading);
        _row.Add(reading.Signals.Span);
        Flush();
    }

    /// <summary>Adds a reading that still awaits its signals.</summary>
    public void Add((string Line, long Sequence) awaiting)
    {
        _row.Add(awaiting.Line);
        _row.Add(awaiting.Sequence);
        Flush();
    }

    /// <summary>Adds a value of a series.</summary>
    public void Add(SeriesValue value)
    {
        _values++;
        foreach (var text in new[] { value.Line, value.Measurand, value.Product, value.Lot, value.Roll, value.Instrument })
        {
            _row.Add(text);
        }

        _row.Add(value.MeasuredAtTicks);
        _row.Add(value.Sequence);
        _row.Add((double?)value.Value);
        _row.Add(value.AcrossMm);
        _row.Add(value.AlongM);
        Flush();
    }

    /// <summary>Adds the picture of a reading.</summary>
    public void Add(long sequence, byte[] picture)
    {
        _row.Add(sequence);
        _row.Add(picture);
        Flush();
    }

    /// <summary>Adds a document.</summary>
    public void Add(VersionedKind kind, StoredVersion version)
    {
        _documents++;
        _row.Add(kind, version);
        Flush();
    }

    /// <summary>Adds a link.</summary>
    public void Add(Link link)
    {
        _links++;
        _row.Add(link.Chain);
        _row.Add(link.Position);
        _row.Add(link.Record.Kind);
        _row.Add(link.Record.Name);
        _row.Add(link.Record.Number);
        _row.Add(link.RecordHash.Span);
        _row.Add(link.Hash.Span);
        _row.Add(link.Covers.Span);
        Flush();
    }

    /// <inheritdoc/>
    public void Dispose() => _hash.Dispose();

    private void Flush()
    {
        _hash.AppendData(_row.Written);
        _row.Clear();
    }
}
