using System.Globalization;

using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Console.Options;

/// <summary>Reads times, and stretches of time, of the command line.</summary>
internal static class TimeText
{
    private static readonly string[] DateFormats = ["yyyy-MM-dd"];
    private static readonly string[] TimeFormats = ["yyyy-MM-dd'T'HH:mmK", "yyyy-MM-dd'T'HH:mm:ssK", "yyyy-MM-dd'T'HH:mm:ss.FFFFFFFK"];

    /// <summary>A time with its offset, or a date for its midnight in UTC; <see langword="null"/> where it is neither.</summary>
    public static Timestamp? Parse(string text)
    {
        if (DateTime.TryParseExact(text, DateFormats, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal, out var date))
        {
            return Timestamp.FromDateTime(date);
        }
        return DateTime.TryParseExact(text, TimeFormats, CultureInfo.InvariantCulture, DateTimeStyles.RoundtripKind, out var time)
            && time.Kind != DateTimeKind.Unspecified
                ? Timestamp.FromDateTime(time.ToUniversalTime())
                : null;
    }

    /// <summary>A time in UTC, to the second, for example 2026-03-10T12:00:00Z.</summary>
    public static string Of(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);

    /// <summary>FROM..TO, the end not included; <see langword="null"/> where it is none or ends before it begins.</summary>
    public static MeasuredSpan? ParseSpan(string text)
    {
        var at = text.IndexOf("..", StringComparison.Ordinal);
        return at > 0 && Parse(text[..at].Trim()) is { } from && Parse(text[(at + 2)..].Trim()) is { } before && from.CompareTo(before) < 0
            ? new MeasuredSpan { MeasuredFrom = from, MeasuredBefore = before }
            : null;
    }
}
