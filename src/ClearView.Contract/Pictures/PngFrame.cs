using System.Buffers.Binary;

namespace ClearView.Contract.Pictures;

/// <summary>Chunks of a PNG: W3C, Portable Network Graphics (PNG) Specification (Third Edition), clauses 5 and 11.2.</summary>
internal static class PngFrame
{
    // Clause 5.3: length, type and checksum of a chunk, four bytes each.
    private const int ChunkOverhead = 12;
    private const int HeaderLength = 13;
    private const uint LargestDimension = int.MaxValue;

    private static readonly uint[] Checksums = MakeChecksums();

    /// <summary>The eight bytes that every PNG begins with (clause 5.2).</summary>
    public static ReadOnlySpan<byte> Signature => [0x89, (byte)'P', (byte)'N', (byte)'G', 0x0D, 0x0A, 0x1A, 0x0A];

    /// <summary>Reads the frame.</summary>
    public static PictureFrame Read(ReadOnlySpan<byte> bytes)
    {
        var rest = bytes[Signature.Length..];
        var size = default(PictureFrame);
        var hasData = false;
        for (var number = 0; ; number++)
        {
            if (rest.Length < ChunkOverhead || BinaryPrimitives.ReadUInt32BigEndian(rest) is var length && length > rest.Length - ChunkOverhead)
            {
                return PictureFrame.Faulty("is a PNG that breaks off");
            }

            var chunk = rest.Slice(4, 4 + (int)length);
            if (BinaryPrimitives.ReadUInt32BigEndian(rest[(8 + (int)length)..]) != Checksum(chunk))
            {
                return PictureFrame.Faulty("is a PNG with a chunk whose checksum is wrong");
            }

            rest = rest[(ChunkOverhead + (int)length)..];
            var type = chunk[..4];
            var data = chunk[4..];
            if (type.SequenceEqual("IHDR"u8) != (number == 0))
            {
                return PictureFrame.Faulty("is a PNG whose header is not its first chunk");
            }

            if (number == 0)
            {
                size = Header(data);
                if (size.Fault is not null)
                {
                    return size;
                }
            }

            hasData |= type.SequenceEqual("IDAT"u8);
            if (type.SequenceEqual("IEND"u8))
            {
                return !hasData || !data.IsEmpty ? PictureFrame.Faulty("is a PNG without image data")
                    : rest.IsEmpty ? size
                    : PictureFrame.Faulty("is a PNG with something behind its end");
            }
        }
    }

    // Clause 11.2.1, with table 12 for the depths of each colour type.
    private static PictureFrame Header(ReadOnlySpan<byte> data)
    {
        if (data.Length != HeaderLength)
        {
            return PictureFrame.Faulty("is a PNG whose header is not 13 bytes long");
        }

        var (width, height) = (BinaryPrimitives.ReadUInt32BigEndian(data), BinaryPrimitives.ReadUInt32BigEndian(data[4..]));
        var (depth, colour, compression, filter, interlace) = (data[8], data[9], data[10], data[11], data[12]);
        var depthFits = colour switch
        {
            0 => depth is 1 or 2 or 4 or 8 or 16,
            3 => depth is 1 or 2 or 4 or 8,
            2 or 4 or 6 => depth is 8 or 16,
            _ => false,
        };
        return width is 0 or > LargestDimension || height is 0 or > LargestDimension
            ? PictureFrame.Faulty("is a PNG without width or height")
            : depthFits && compression == 0 && filter == 0 && interlace <= 1
                ? new PictureFrame(width, height, null)
                : PictureFrame.Faulty("is a PNG of a kind that the specification does not know");
    }

    // Clause 5.5: CRC-32 over type and data.
    private static uint Checksum(ReadOnlySpan<byte> bytes)
    {
        var crc = uint.MaxValue;
        foreach (var one in bytes)
        {
            crc = Checksums[(byte)(crc ^ one)] ^ (crc >> 8);
        }

        return ~crc;
    }

    private static uint[] MakeChecksums()
    {
        const uint polynomial = 0xEDB88320;
        var table = new uint[256];
        for (var i = 0u; i < table.Length; i++)
        {
            var value = i;
            for (var bit = 0; bit < 8; bit++)
            {
                value = (value & 1) != 0 ? polynomial ^ (value >> 1) : value >> 1;
            }

            table[i] = value;
        }

        return table;
    }
}
