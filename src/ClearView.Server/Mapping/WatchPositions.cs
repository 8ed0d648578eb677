using System.Buffers.Binary;
using System.Buffers.Text;

namespace ClearView.Server.Mapping;

/// <summary>Positions of watches: a place in the order of recording.</summary>
/// <remarks>Layout: version (1 byte), sequence (8), as base64url. The same place on every server of a store.</remarks>
internal static class WatchPositions
{
    private const byte Version = 1;
    private const int Length = 9;

    /// <summary>The position behind a place.</summary>
    public static string Write(long sequence)
    {
        Span<byte> bytes = stackalloc byte[Length];
        bytes[0] = Version;
        BinaryPrimitives.WriteInt64BigEndian(bytes[1..], sequence);
        return Base64Url.EncodeToString(bytes);
    }

    /// <summary>Reads a position.</summary>
    /// <returns>Whether it is one.</returns>
    public static bool TryRead(string position, out long sequence)
    {
        sequence = 0;
        Span<byte> bytes = stackalloc byte[Length];
        if (!Base64Url.IsValid(position, out var decodedLength) || decodedLength != Length)
        {
            return false;
        }

        Base64Url.DecodeFromChars(position, bytes);
        sequence = BinaryPrimitives.ReadInt64BigEndian(bytes[1..]);
        return bytes[0] == Version && sequence >= 0;
    }
}
