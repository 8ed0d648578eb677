using System.Buffers;
using System.Globalization;

namespace ClearView.Console.Rendering;

/// <summary>Cells and rows of CSV (RFC 4180) that a spreadsheet opens as what they are.</summary>
/// <remarks>
/// A spreadsheet takes a text that begins like a formula for one, whoever wrote it. Such a text gets an apostrophe in front, which
/// spreadsheets take for "this is text"; numbers are written by us and stay as they are.
/// </remarks>
internal static class CsvText
{
    // What begins a formula, or what a spreadsheet drops before it looks for one.
    private static readonly SearchValues<char> FormulaStarts = SearchValues.Create("=+-@\t\r\n＝＋－＠");

    private static readonly SearchValues<char> QuotedCharacters = SearchValues.Create("\",;\t\r\n");

    /// <summary>A text of somebody else's.</summary>
    public static string Cell(string text)
    {
        var harmless = BeginsLikeFormula(text) || BeginsLikeFormula(text.TrimStart()) ? "'" + text : text;
        return harmless.AsSpan().ContainsAny(QuotedCharacters) || harmless != harmless.Trim()
            ? $"\"{harmless.Replace("\"", "\"\"", StringComparison.Ordinal)}\""
            : harmless;
    }

    /// <summary>A number in full precision, with a point; empty where there is none.</summary>
    public static string Cell(double? number) => number?.ToString("R", CultureInfo.InvariantCulture) ?? "";

    /// <summary>A row without its end.</summary>
    public static string Row(IEnumerable<string> cells) => string.Join(',', cells);

    private static bool BeginsLikeFormula(string text) => text.Length > 0 && FormulaStarts.Contains(text[0]);
}
