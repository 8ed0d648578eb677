using System.Globalization;
using System.Text.RegularExpressions;

namespace ClearView.Client.Files.Parsing;

/// <summary>Reads the numbers of one file, and holds the file to one decimal mark.</summary>
/// <param name="path">The file, for messages.</param>
/// <param name="separator">Separator of cells; where it is the comma, decimals are written with a point.</param>
/// <param name="decimalMark">Decimal mark if it is known beforehand.</param>
internal sealed partial class NumberFormat(string path, char separator, char? decimalMark)
{
    private char? _decimalMark = decimalMark ?? (separator == ',' ? '.' : null);

    /// <summary>Reads one number.</summary>
    /// <exception cref="ScanFileException">The cell is empty, no number, infinite, or written with another decimal mark.</exception>
    public double Read(string cell, int? line, int? column, string what)
    {
        if (cell.Length == 0)
        {
            throw Fault("the cell is empty");
        }
        // A minus sign from a word processor is a minus sign.
        var text = cell.Replace('\u2212', '-');
        if (Number().Match(text) is not { Success: true } match)
        {
            throw Fault($"\"{Shorten(cell)}\" is not a number");
        }
        if (match.Groups["mark"] is { Success: true } mark)
        {
            _decimalMark ??= mark.Value[0];
            if (_decimalMark != mark.Value[0])
            {
                throw Fault($"\"{Shorten(cell)}\" is written with a decimal {Name(mark.Value[0])} where the file uses a decimal {Name(_decimalMark.Value)}");
            }
            text = text.Replace(',', '.');
        }
        var value = double.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);
        return double.IsFinite(value) ? value : throw Fault($"\"{Shorten(cell)}\" is too large");

        ScanFileException Fault(string problem) => new(path, line, column, problem, $"{what}, a number such as {Example()}");
    }

    private string Example() => _decimalMark == ',' ? "91,25" : "91.25";

    private static string Name(char mark) => mark == ',' ? "comma" : "point";

    private static string Shorten(string text) => text.Length <= 40 ? text : text[..40] + "...";

    [GeneratedRegex(@"^[+-]?[0-9]+((?<mark>[.,])[0-9]*)?([eE][+-]?[0-9]+)?$|^[+-]?(?<mark>[.,])[0-9]+([eE][+-]?[0-9]+)?$", RegexOptions.CultureInvariant)]
    private static partial Regex Number();
}
