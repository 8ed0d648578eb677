using System.Globalization;

namespace ClearView.Client.Outbox;

/// <summary>Writes counts of bytes for people.</summary>
public static class ByteText
{
    /// <summary>The count in the largest decimal unit that keeps it at 1 or above, for example "1.5 MB".</summary>
    public static string Of(long bytes) => bytes switch
    {
        >= 1_000_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e9:0.##} GB"),
        >= 1_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0.##} MB"),
        >= 1_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e3:0.#} kB"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{bytes} bytes"),
    };
}
