using System.Security.Cryptography;

using ClearView.Records.Model;
using ClearView.Records.Retention;
using ClearView.Records.Schema;

namespace ClearView.Records.Audit;

/// <summary>Keys and hashes of records.</summary>
public static class RecordHash
{
    [ThreadStatic]
    private static CanonicalBytes? _bytes;

    /// <summary>SHA-256 of a reading and its values.</summary>
    /// <param name="reading">The reading; its own values are not looked at.</param>
    /// <param name="values">Its values, in any order.</param>
    /// <param name="pictureSha256">Hash of its picture; empty where there is none.</param>
    /// <returns>32 bytes.</returns>
    public static byte[] Of(StoredReading reading, IReadOnlyCollection<MeasurandValue> values, ReadOnlySpan<byte> pictureSha256)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(values);
        var bytes = Fresh();
        bytes.Add(reading);
        bytes.Add(values);
        bytes.Add(pictureSha256);
        return bytes.Sha256();
    }

    /// <summary>SHA-256 of a picture; empty where there is none.</summary>
    internal static byte[] OfPicture(ReadOnlySpan<byte> picture) => picture.IsEmpty ? [] : SHA256.HashData(picture);

    /// <summary>SHA-256 of the signals of a reading.</summary>
    /// <param name="line">Line of the reading.</param>
    /// <param name="sequence">Its place in the order of recording.</param>
    /// <param name="signals">The signals as they are stored.</param>
    /// <returns>32 bytes.</returns>
    public static byte[] OfSignals(string line, long sequence, ReadOnlySpan<byte> signals)
    {
        ArgumentNullException.ThrowIfNull(line);
        var bytes = Fresh();
        bytes.Add(line);
        bytes.Add(sequence);
        bytes.Add(signals);
        return bytes.Sha256();
    }

    /// <summary>SHA-256 of a document.</summary>
    internal static byte[] Of(VersionedKind kind, StoredVersion version)
    {
        var bytes = Fresh();
        bytes.Add(kind, version);
        return bytes.Sha256();
    }

    /// <summary>SHA-256 of the retirement of a month.</summary>
    internal static byte[] Of(RetiredMonth retired)
    {
        var bytes = Fresh();
        bytes.Add(retired.Month);
        bytes.Add(retired.Part);
        bytes.Add(retired.FirstTick);
        bytes.Add(retired.NextTick);
        bytes.Add(retired.AfterSequence);
        bytes.Add(retired.LastSequence);
        bytes.Add(retired.Readings);
        bytes.Add(retired.Values);
        bytes.Add(retired.Sha256);
        bytes.Add(retired.ExportFile);
        bytes.Add(retired.RetiredAt.UtcTicks);
        bytes.Add(retired.RetiredBy);
        return bytes.Sha256();
    }

    /// <summary>SHA-256 of the heads of other chains.</summary>
    internal static byte[] OfHeads(ReadOnlySpan<byte> covers) => SHA256.HashData(covers);

    /// <summary>The key of a document.</summary>
    internal static RecordKey KeyOf(VersionedKind kind, StoredVersion version) =>
        new(KindKeys.Of(kind), version.Entry.Name, version.Version);

    // One buffer per thread: a record is a few kilobytes, and thousands are hashed in a second.
    private static CanonicalBytes Fresh()
    {
        var bytes = _bytes ??= new CanonicalBytes();
        bytes.Clear();
        return bytes;
    }
}
