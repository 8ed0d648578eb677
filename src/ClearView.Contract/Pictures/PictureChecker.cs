using System.Security.Cryptography;

using ClearView.V1;

namespace ClearView.Contract.Pictures;

/// <summary>Finds what a picture is from its content, and refuses what is none or is too large.</summary>
/// <remarks>
/// The frame is checked, not every pixel: the chunks of a PNG with their checksums, the markers of a JPEG. Nothing is decoded.
/// </remarks>
public static class PictureChecker
{
    /// <summary>Most bytes of a picture.</summary>
    public const int MostBytes = 2_000_000;

    /// <summary>Most pixels of a picture.</summary>
    public const long MostPixels = 40_000_000;

    /// <summary>Checks a picture.</summary>
    /// <param name="bytes">The picture.</param>
    /// <param name="info">What it is, where it is one.</param>
    /// <returns>What is wrong with it; <see langword="null"/> where nothing is.</returns>
    public static string? Check(ReadOnlySpan<byte> bytes, out PictureInfo? info)
    {
        info = null;
        if (bytes.Length > MostBytes)
        {
            return FormattableString.Invariant($"had {bytes.Length} bytes; expected at most {MostBytes}.");
        }

        var (format, frame) = bytes.StartsWith(PngFrame.Signature)
            ? (PictureFormat.Png, PngFrame.Read(bytes))
            : bytes.StartsWith(JpegFrame.Start)
                ? (PictureFormat.Jpeg, JpegFrame.Read(bytes))
                : (PictureFormat.Unspecified, PictureFrame.Faulty("is neither PNG nor JPEG"));
        if (frame.Fault is { } fault)
        {
            return fault + "; expected a whole PNG or JPEG file.";
        }

        if ((long)frame.WidthPx * frame.HeightPx > MostPixels)
        {
            return FormattableString.Invariant($"had {frame.WidthPx} x {frame.HeightPx} pixels; expected at most {MostPixels} in all.");
        }

        info = new PictureInfo
        {
            Format = format,
            WidthPx = frame.WidthPx,
            HeightPx = frame.HeightPx,
            ByteCount = (uint)bytes.Length,
            Sha256 = Convert.ToHexStringLower(SHA256.HashData(bytes)),
        };
        return null;
    }
}
