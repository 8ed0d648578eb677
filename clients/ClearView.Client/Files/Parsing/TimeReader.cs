using System.Globalization;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Client.Files.Parsing;

/// <summary>Reads times of measurement. A time without its offset would be read in the time zone of whoever reads it, and is refused.</summary>
internal static class TimeReader
{
    private const string Expected = "ISO 8601 with its offset from UTC, such as 2026-03-02T06:15:00Z or 2026-03-02T07:15:00+01:00";

    private static readonly string[] TimeFormats =
    [
        "yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK",
        "yyyy-MM-dd HH:mmK", "yyyy-MM-dd HH:mm:ssK", "yyyy-MM-dd HH:mm:ss.FFFFFFFK",
    ];

    /// <summary>Reads one time.</summary>
    /// <param name="entry">The text, and where it stands.</param>
    /// <param name="path">The file, for messages.</param>
    /// <exception cref="ScanFileException">It is no time, or has no offset.</exception>
    public static Timestamp Read(MetadataEntry entry, string path)
    {
        if (!DateTime.TryParseExact(entry.Value, TimeFormats, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind, out var parsed))
        {
            throw new ScanFileException(path, entry.Line, entry.Column, $"measured_at is \"{entry.Value}\"", Expected);
        }
        if (parsed.Kind == DateTimeKind.Unspecified)
        {
            throw new ScanFileException(path, entry.Line, entry.Column, $"measured_at \"{entry.Value}\" has no offset from UTC", Expected);
        }
        return Timestamp.FromDateTime(parsed.ToUniversalTime());
    }
}
