using System.Globalization;

using ClearView.Optics.Uncertainty;
using ClearView.V1;

namespace ClearView.Console.Rendering;

/// <summary>Writes values with the digits that a person compares, whatever the culture.</summary>
internal static class NumberText
{
    private const int MostDecimals = 9;

    /// <summary>The value, without unit.</summary>
    public static string Of(MeasuredValue value) => Fixed(value.Value, Decimals(value));

    /// <summary>The expanded uncertainty with its sign, for example "± 0.12"; empty where there is none.</summary>
    public static string Expanded(MeasuredValue value) => Expanded(value.Uncertainty);

    /// <summary>The expanded uncertainty with its sign; empty where there is none.</summary>
    public static string Expanded(Uncertainty? uncertainty) =>
        IsKnown(uncertainty) ? $"± {Fixed(uncertainty!.ExpandedUncertainty, UncertaintyRounding.Decimals(uncertainty.ExpandedUncertainty))}" : "";

    /// <summary>A number with the digits that an uncertainty supports, with two decimals where there is none.</summary>
    /// <param name="value">The number.</param>
    /// <param name="uncertainty">The uncertainty, in the number's unit.</param>
    /// <param name="moreDecimals">Decimals beyond those that the uncertainty supports.</param>
    public static string Supported(double value, double uncertainty, int moreDecimals = 0) =>
        Fixed(value, uncertainty > 0 && double.IsFinite(uncertainty) ? UncertaintyRounding.Decimals(uncertainty) + moreDecimals : 2);

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

    /// <summary>A number with the digits that its measurand is compared in.</summary>
    public static string Usual(double value, string measurand, string unit) => Fixed(value, UsualDecimals(measurand, unit));

    /// <summary>A number of the file or the command line, as short as it can be written.</summary>
    public static string Plain(double value) => value.ToString(CultureInfo.InvariantCulture);

    // A chromaticity spans 0 to 1 and is compared in its fourth decimal; a wavelength to a tenth of a nm.
    private static int Decimals(MeasuredValue value) => IsKnown(value.Uncertainty)
        ? UncertaintyRounding.Decimals(value.Uncertainty.ExpandedUncertainty)
        : UsualDecimals(value.Measurand, value.Unit);

    private static bool IsKnown(Uncertainty? uncertainty) => uncertainty is { ExpandedUncertainty: > 0 and < double.PositiveInfinity };

    private static int UsualDecimals(string measurand, string unit) =>
        measurand.StartsWith("chromaticity_", StringComparison.Ordinal) ? 4 : unit == "nm" ? 1 : 2;

    /// <summary>A number with a fixed count of decimals.</summary>
    public static string Fixed(double value, int decimals)
    {
        var text = value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);
        // Minus nothing is nothing.
        return text.StartsWith('-') && text.All(c => c is '-' or '0' or '.') ? text[1..] : text;
    }
}
