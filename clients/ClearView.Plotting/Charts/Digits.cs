using System.Globalization;

namespace ClearView.Plotting.Charts;

/// <summary>Rounds uncertainties to two significant digits and values to the same place (JCGM 100, 7.2.6).</summary>
internal static class Digits
{
    private const int MostDecimals = 12;

    /// <summary>An uncertainty with two significant digits.</summary>
    public static string Two(double uncertainty) => Fixed(uncertainty, Decimals(uncertainty));

    /// <summary>A value rounded to the last digit of its uncertainty.</summary>
    public static string Beside(double value, double uncertainty) => Fixed(value, Decimals(uncertainty));

    private static int Decimals(double uncertainty) => uncertainty > 0 && double.IsFinite(uncertainty)
        ? Math.Clamp(1 - (int)Math.Floor(Math.Log10(uncertainty)), 0, MostDecimals)
        : 2;

    private static string Fixed(double value, int decimals) =>
        value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).Replace('-', '−');
}
