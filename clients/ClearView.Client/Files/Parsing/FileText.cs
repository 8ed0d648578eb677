using System.Text;

namespace ClearView.Client.Files.Parsing;

/// <summary>Turns a file's bytes into lines of text, or says why they are none.</summary>
internal static class FileText
{
    /// <summary>The largest file that is read, bytes: hundreds of specimens at 1 nm fit, a wrong file does not fill the memory.</summary>
    public const int LargestFileBytes = 64 * 1024 * 1024;

    private const string TextExpected = "a text file in UTF-8, or in UTF-16 with its byte order mark";

    /// <summary>The lines, whatever ends them.</summary>
    /// <exception cref="ScanFileException">Empty, too large, or no text.</exception>
    public static string[] ReadLines(Stream stream, string path)
    {
        var text = Decode(ReadBytes(stream, path), path);
        var lines = text.ReplaceLineEndings("\n").Split('\n');
        for (var i = 0; i < lines.Length; i++)
        {
            if (lines[i].AsSpan().IndexOfAnyInRange('\0', '\u0008') >= 0)
            {
                throw new ScanFileException(path, i + 1, null, "the line holds control characters that no text has", TextExpected);
            }
        }
        return lines.Any(line => !string.IsNullOrWhiteSpace(line))
            ? lines
            : throw new ScanFileException(path, null, null, "the file is empty", "a header row and at least two rows of numbers");
    }

    private static byte[] ReadBytes(Stream stream, string path)
    {
        using var bytes = new MemoryStream();
        var buffer = new byte[81920];
        int read;
        while ((read = stream.Read(buffer)) > 0)
        {
            if (bytes.Length + read > LargestFileBytes)
            {
                throw new ScanFileException(path, null, null, "the file is larger than 64 MB", "a scan file");
            }
            bytes.Write(buffer, 0, read);
        }
        return bytes.ToArray();
    }

    private static string Decode(byte[] bytes, string path)
    {
        (Encoding Encoding, int MarkLength) found = bytes switch
        {
            [0xEF, 0xBB, 0xBF, ..] => (new UTF8Encoding(false, true), 3),
            [0xFF, 0xFE, ..] => (new UnicodeEncoding(false, false, true), 2),
            [0xFE, 0xFF, ..] => (new UnicodeEncoding(true, false, true), 2),
            _ => (new UTF8Encoding(false, true), 0),
        };
        try
        {
            return found.Encoding.GetString(bytes, found.MarkLength, bytes.Length - found.MarkLength);
        }
        catch (DecoderFallbackException e)
        {
            var line = 1 + bytes.AsSpan(0, Math.Clamp(e.Index, 0, bytes.Length)).Count((byte)'\n');
            throw new ScanFileException(path, line, null, "the line holds bytes that are no text", TextExpected, e);
        }
    }
}
