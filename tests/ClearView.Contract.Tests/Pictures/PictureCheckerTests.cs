using System.Buffers.Binary;

using ClearView.Contract.Pictures;
using ClearView.V1;

namespace ClearView.Contract.Tests.Pictures;

public sealed class PictureCheckerTests
{
    // Place of the width in the first chunk of a PNG (W3C PNG, 5.2, 5.3 and 11.2.1): signature, length, type.
    private const int PngWidth = 16;

    [Fact]
    public void Check_PictureOfAnotherEncoder_GivesFormatAndSize()
    {
        var png = PictureExamples.Png();
        var jpeg = PictureExamples.Jpeg();

        Assert.Null(PictureChecker.Check(png, out var ofPng));
        Assert.Null(PictureChecker.Check(jpeg, out var ofJpeg));

        Assert.Equal((PictureFormat.Png, 16u, 9u, (uint)png.Length), (ofPng!.Format, ofPng.WidthPx, ofPng.HeightPx, ofPng.ByteCount));
        Assert.Equal((PictureFormat.Jpeg, 16u, 9u, (uint)jpeg.Length), (ofJpeg!.Format, ofJpeg.WidthPx, ofJpeg.HeightPx, ofJpeg.ByteCount));
    }

    [Fact]
    public void Check_CutAnywhere_IsRefused()
    {
        foreach (var picture in new[] { PictureExamples.Png(), PictureExamples.Jpeg() })
        {
            for (var length = 0; length < picture.Length; length++)
            {
                Assert.NotNull(PictureChecker.Check(picture.AsSpan(0, length), out var info));
                Assert.Null(info);
            }
        }
    }

    [Fact]
    public void Check_PngWithAnyBitFlipped_IsRefused()
    {
        // The checksums of its chunks hold every bit (W3C PNG, 5.5).
        var picture = PictureExamples.Png();
        for (var bit = 0; bit < 8 * picture.Length; bit++)
        {
            picture[bit / 8] ^= (byte)(1 << (bit % 8));
            Assert.NotNull(PictureChecker.Check(picture, out _));
            picture[bit / 8] ^= (byte)(1 << (bit % 8));
        }
    }

    [Fact]
    public void Check_SomethingBehindTheEnd_IsRefused()
    {
        Assert.Contains("behind its end", PictureChecker.Check([.. PictureExamples.Png(), 0], out _), StringComparison.Ordinal);
        Assert.Contains("behind its end", PictureChecker.Check([.. PictureExamples.Jpeg(), 0], out _), StringComparison.Ordinal);
    }

    [Fact]
    public void Check_JpegOfTooManyPixels_IsRefused()
    {
        // SOF0 is FF C0; height and width follow length and precision (ITU-T T.81, B.2.2).
        var picture = PictureExamples.Jpeg();
        var frame = picture.AsSpan().IndexOf(new byte[] { 0xFF, 0xC0 });
        BinaryPrimitives.WriteUInt16BigEndian(picture.AsSpan(frame + 5), 8000);
        BinaryPrimitives.WriteUInt16BigEndian(picture.AsSpan(frame + 7), 5001);

        Assert.Contains("5001 x 8000 pixels", PictureChecker.Check(picture, out _), StringComparison.Ordinal);

        BinaryPrimitives.WriteUInt16BigEndian(picture.AsSpan(frame + 7), 5000);
        Assert.Null(PictureChecker.Check(picture, out _));
    }

    [Theory]
    [InlineData(0)]
    [InlineData(0x8000_0000)]
    public void Check_PngOfNoWidth_IsRefused(uint width)
    {
        var picture = PictureExamples.Png();
        BinaryPrimitives.WriteUInt32BigEndian(picture.AsSpan(PngWidth), width);

        // The checksum of the header, by the library of the platform's ZIP.
        BinaryPrimitives.WriteUInt32BigEndian(picture.AsSpan(29), ZipChecksum(picture.AsSpan(12, 17)));

        Assert.Contains("without width or height", PictureChecker.Check(picture, out _), StringComparison.Ordinal);
    }

    [Fact]
    public void Check_TooManyBytesOrNoPicture_IsRefused()
    {
        Assert.Contains("2000001 bytes", PictureChecker.Check(new byte[PictureChecker.MostBytes + 1], out _), StringComparison.Ordinal);
        Assert.Contains("neither PNG nor JPEG", PictureChecker.Check("GIF89a"u8, out _), StringComparison.Ordinal);
    }

    // ZIP uses the same CRC-32 as PNG; an archive of one stored file holds it 14 bytes in (PKWARE APPNOTE, 4.3.7).
    private static uint ZipChecksum(ReadOnlySpan<byte> bytes)
    {
        using var archive = new MemoryStream();
        using (var zip = new System.IO.Compression.ZipArchive(archive, System.IO.Compression.ZipArchiveMode.Create, leaveOpen: true))
        {
            using var file = zip.CreateEntry("a", System.IO.Compression.CompressionLevel.NoCompression).Open();
            file.Write(bytes);
        }

        archive.Position = 0;
        using var read = new System.IO.Compression.ZipArchive(archive);
        return read.Entries[0].Crc32;
    }
}
