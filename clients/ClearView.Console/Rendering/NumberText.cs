using System.Globalization;

using ClearView.V1;

namespace ClearView.Console.Rendering;

/// <summary>Writes values with the digits that a person compares, whatever the culture.</summary>
internal static class NumberText
{
    private const int MostDecimals = 9;

    /// <summary>The value, without unit.</summary>
    public static string Of(MeasuredValue value) => Fixed(value.Value, Decimals(value));

    /// <summary>The value with as many more digits as it takes to tell it from a limit.</summary>
    public static string Apart(MeasuredValue value, double limit)
    {
        var decimals = Decimals(value);
        while (decimals < MostDecimals && value.Value != limit && Fixed(value.Value, decimals) == Fixed(limit, decimals))
        {
            decimals++;
        }
        return Fixed(value.Value, decimals);
    }

    /// <summary>A number of the file or the command line, as short as it can be written.</summary>
    public static string Plain(double value) => value.ToString(CultureInfo.InvariantCulture);

    // A chromaticity spans 0 to 1 and is compared in its fourth decimal; a wavelength to a tenth of a nm.
    private static int Decimals(MeasuredValue value) =>
        value.Measurand.StartsWith("chromaticity_", StringComparison.Ordinal) ? 4 : value.Unit == "nm" ? 1 : 2;

    private static string Fixed(double value, int decimals)
    {
        var text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        // Minus nothing is nothing.
        return text.StartsWith('-') && text.All(c => c is '-' or '0' or '.') ? text[1..] : text;
    }
}
