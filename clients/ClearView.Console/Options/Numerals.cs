using System.Globalization;

namespace ClearView.Console.Options;

/// <summary>Reads numbers of the command line: decimal point, no separators of thousands.</summary>
internal static class Numerals
{
    /// <summary>One number; <see langword="null"/> where the text is none or not finite.</summary>
    public static double? Read(string text) =>
        double.TryParse(text.Trim(), NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value : null;

    /// <summary>One number within bounds, in an array, so that it can be absent.</summary>
    public static double[]? ReadWithin(string text, double least, double most) =>
        Read(text) is { } value && value >= least && value <= most ? [value] : null;

    /// <summary>Several numbers with a separator between them; <see langword="null"/> where one is none or their count is another.</summary>
    public static double[]? ReadList(string text, char separator, int count)
    {
        var values = text.Split(separator).Select(Read).ToList();
        return values.Count == count && values.TrueForAll(value => value is not null) ? [.. values.Select(value => value!.Value)] : null;
    }
}
