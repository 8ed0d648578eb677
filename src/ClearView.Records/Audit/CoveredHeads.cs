using System.Buffers.Binary;
using System.Collections.Immutable;

namespace ClearView.Records.Audit;

/// <summary>Heads of other chains as a link holds them: 48 bytes each, in the order of chains.</summary>
internal static class CoveredHeads
{
    private const int HeadLength = sizeof(long) + sizeof(long) + LinkHash.Length;

    /// <summary>Writes heads.</summary>
    public static byte[] Write(IEnumerable<ChainHead> heads) =>
    [
        .. heads.OrderBy(head => head.Chain).SelectMany(head =>
        {
            var bytes = new byte[HeadLength];
            BinaryPrimitives.WriteInt64LittleEndian(bytes, head.Chain);
            BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(sizeof(long)), head.Position);
            Convert.FromHexString(head.Sha256).CopyTo(bytes.AsSpan(2 * sizeof(long)));
            return bytes;
        }),
    ];

    /// <summary>Reads heads; bytes that are none give none.</summary>
    public static ImmutableArray<ChainHead> Read(ReadOnlySpan<byte> bytes)
    {
        var heads = ImmutableArray.CreateBuilder<ChainHead>();
        for (; bytes.Length >= HeadLength; bytes = bytes[HeadLength..])
        {
            heads.Add(new ChainHead(
                BinaryPrimitives.ReadInt64LittleEndian(bytes),
                BinaryPrimitives.ReadInt64LittleEndian(bytes[sizeof(long)..]),
                Convert.ToHexStringLower(bytes[(2 * sizeof(long))..HeadLength])));
        }

        return heads.ToImmutable();
    }
}
