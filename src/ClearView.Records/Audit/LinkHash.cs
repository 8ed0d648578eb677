using System.Security.Cryptography;

namespace ClearView.Records.Audit;

/// <summary>How links are hashed (SHA-256, FIPS 180-4).</summary>
public static class LinkHash
{
    /// <summary>Bytes of a hash.</summary>
    public const int Length = SHA256.HashSizeInBytes;

    private const string Domain = "ClearView link 1";

    /// <summary>What stands before the first link of a chain: 32 bytes of zero.</summary>
    public static ReadOnlyMemory<byte> BeforeFirst { get; } = new byte[Length];

    /// <summary>
    /// The hash of a link: SHA-256 over "ClearView link 1", the hash before it, the number of the chain, the position, kind and
    /// name and number of the record, and the record's hash. Numbers are 8 bytes, little-endian; texts, in UTF-8, and hashes stand
    /// behind their length in bytes as such a number.
    /// </summary>
    /// <param name="previous">Hash of the link before; <see cref="BeforeFirst"/> for the first.</param>
    /// <param name="chain">Number of the chain.</param>
    /// <param name="position">Place in the chain.</param>
    /// <param name="record">The record.</param>
    /// <param name="recordHash">SHA-256 of its canonical bytes.</param>
    public static byte[] Of(ReadOnlySpan<byte> previous, long chain, long position, RecordKey record, ReadOnlySpan<byte> recordHash)
    {
        var bytes = new CanonicalBytes();
        bytes.Add(Domain);
        bytes.Add(previous);
        bytes.Add(chain);
        bytes.Add(position);
        bytes.Add(record.Kind);
        bytes.Add(record.Name);
        bytes.Add(record.Number);
        bytes.Add(recordHash);
        return bytes.Sha256();
    }
}
