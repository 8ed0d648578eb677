using System.Buffers.Binary;

namespace ClearView.Client.Outbox;

/// <summary>One record of a segment, and its bytes.</summary>
/// <remarks>
/// Little-endian: mark (4 bytes), length of the payload (4), sequence (8), time of acceptance in ms since 1970 (8), CRC32 of these
/// 24 bytes (4), payload, CRC32 of the payload (4). The mark lets a reader find the next record behind damaged bytes; the check of
/// the head tells a record that was cut off from one whose length was damaged.
/// </remarks>
/// <param name="Sequence">Number in the outbox, from 1.</param>
/// <param name="AcceptedMs">When it was accepted, ms since 1970, for people only: order never rests on it.</param>
/// <param name="Payload">The serialised request.</param>
internal sealed record OutboxRecord(long Sequence, long AcceptedMs, ReadOnlyMemory<byte> Payload)
{
    /// <summary>Bytes before the payload.</summary>
    public const int HeadLength = 28;

    /// <summary>Bytes behind the payload.</summary>
    public const int TailLength = 4;

    /// <summary>A payload is smaller than this; the server takes far less.</summary>
    public const int LargestPayload = 64 * 1024 * 1024;

    /// <summary>The mark: "CVR" and the version of the form.</summary>
    public static ReadOnlySpan<byte> Mark => "CVR\x01"u8;

    /// <summary>Bytes of the whole.</summary>
    public int Length => HeadLength + Payload.Length + TailLength;

    /// <summary>Check of the payload, which an acknowledgement repeats.</summary>
    public uint Check => Crc32.Of(Payload.Span);

    /// <summary>The record as it stands in the file.</summary>
    public byte[] ToBytes()
    {
        var bytes = new byte[Length];
        Mark.CopyTo(bytes);
        BinaryPrimitives.WriteInt32LittleEndian(bytes.AsSpan(4), Payload.Length);
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(8), Sequence);
        BinaryPrimitives.WriteInt64LittleEndian(bytes.AsSpan(16), AcceptedMs);
        BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(24), Crc32.Of(bytes.AsSpan(0, 24)));
        Payload.Span.CopyTo(bytes.AsSpan(HeadLength));
        BinaryPrimitives.WriteUInt32LittleEndian(bytes.AsSpan(HeadLength + Payload.Length), Check);
        return bytes;
    }

    /// <summary>Length of the payload, where a sound head stands at the beginning.</summary>
    public static int? PayloadLength(ReadOnlySpan<byte> bytes) =>
        bytes.Length >= HeadLength && bytes.StartsWith(Mark)
        && BinaryPrimitives.ReadUInt32LittleEndian(bytes[24..]) == Crc32.Of(bytes[..24])
        && BinaryPrimitives.ReadInt32LittleEndian(bytes[4..]) is >= 0 and <= LargestPayload and var length
            ? length
            : null;

    /// <summary>The record at the beginning; <see langword="null"/> where there is no whole and sound one.</summary>
    public static OutboxRecord? Read(ReadOnlyMemory<byte> bytes)
    {
        if (PayloadLength(bytes.Span) is not { } length || bytes.Length - HeadLength - TailLength < length)
        {
            return null;
        }
        var payload = bytes.Slice(HeadLength, length);
        return BinaryPrimitives.ReadUInt32LittleEndian(bytes.Span[(HeadLength + length)..]) == Crc32.Of(payload.Span)
            ? new OutboxRecord(BinaryPrimitives.ReadInt64LittleEndian(bytes.Span[8..]), BinaryPrimitives.ReadInt64LittleEndian(bytes.Span[16..]), payload)
            : null;
    }
}
