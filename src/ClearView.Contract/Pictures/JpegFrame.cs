using System.Buffers.Binary;

namespace ClearView.Contract.Pictures;

/// <summary>Markers of a JPEG: Recommendation ITU-T T.81 (09/92), annex B.</summary>
internal static class JpegFrame
{
    private const byte Marker = 0xFF;
    private const byte StartOfImage = 0xD8;
    private const byte EndOfImage = 0xD9;
    private const byte StartOfScan = 0xDA;

    // Length, precision, height, width and number of components (B.2.2).
    private const int ShortestFrameHeader = 8;

    /// <summary>The marker that every JPEG begins with, and the first byte of the next.</summary>
    public static ReadOnlySpan<byte> Start => [Marker, StartOfImage, Marker];

    /// <summary>Reads the frame.</summary>
    public static PictureFrame Read(ReadOnlySpan<byte> bytes)
    {
        var size = default(PictureFrame);
        var hasScan = false;
        for (var at = 2; ;)
        {
            // A marker may be preceded by any number of fill bytes (B.1.1.2).
            while (at + 1 < bytes.Length && bytes[at] == Marker && bytes[at + 1] == Marker)
            {
                at++;
            }

            if (at + 2 > bytes.Length || bytes[at] != Marker)
            {
                return PictureFrame.Faulty("is a JPEG that breaks off");
            }

            var marker = bytes[at + 1];
            at += 2;
            if (marker == EndOfImage)
            {
                return size.WidthPx == 0 || !hasScan ? PictureFrame.Faulty("is a JPEG without image data")
                    : at == bytes.Length ? size
                    : PictureFrame.Faulty("is a JPEG with something behind its end");
            }

            if (at + 2 > bytes.Length || BinaryPrimitives.ReadUInt16BigEndian(bytes[at..]) is var length && (length < 2 || at + length > bytes.Length))
            {
                return PictureFrame.Faulty("is a JPEG that breaks off");
            }

            var segment = bytes.Slice(at, length);
            at += length;
            if (IsFrame(marker))
            {
                size = Header(segment, size);
                if (size.Fault is not null)
                {
                    return size;
                }
            }
            else if (marker == StartOfScan)
            {
                hasScan = true;
                at = BehindScan(bytes, at);
            }
        }
    }

    // Table B.1: frames are C0 to CF, but for tables of Huffman (C4) and arithmetic (CC) codes and a reserved marker (C8).
    private static bool IsFrame(byte marker) => marker is >= 0xC0 and <= 0xCF and not (0xC4 or 0xC8 or 0xCC);

    private static PictureFrame Header(ReadOnlySpan<byte> segment, PictureFrame earlier)
    {
        if (segment.Length < ShortestFrameHeader || segment.Length != ShortestFrameHeader + 3 * segment[7] || segment[7] == 0)
        {
            return PictureFrame.Faulty("is a JPEG whose frame header does not fit");
        }

        var (height, width) = (BinaryPrimitives.ReadUInt16BigEndian(segment[3..]), BinaryPrimitives.ReadUInt16BigEndian(segment[5..]));
        return earlier.WidthPx != 0 ? PictureFrame.Faulty("is a JPEG with two frames")
            : width == 0 || height == 0 ? PictureFrame.Faulty("is a JPEG without width or height")
            : new PictureFrame(width, height, null);
    }

    // Coded data goes on until a marker that is neither a stuffed zero nor a restart (B.1.1.5, B.1.1.2).
    private static int BehindScan(ReadOnlySpan<byte> bytes, int at)
    {
        while (at + 1 < bytes.Length && !(bytes[at] == Marker && bytes[at + 1] is not (0x00 or (>= 0xD0 and <= 0xD7))))
        {
            at++;
        }

        return at;
    }
}
