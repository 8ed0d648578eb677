using System.Globalization;

namespace ClearView.Optics.Uncertainty;

/// <summary>Numbers to the digits that their uncertainty supports (JCGM 100, 7.2.6).</summary>
public static class UncertaintyRounding
{
    private const int MostDecimals = 12;

    /// <summary>Decimals to print: so many that the uncertainty keeps two significant digits.</summary>
    /// <param name="uncertainty">The uncertainty, above 0 and finite.</param>
    /// <returns>Decimals, 0 to 12.</returns>
    public static int Decimals(double uncertainty)
    {
        if (!(uncertainty > 0 && double.IsFinite(uncertainty)))
        {
            throw new ArgumentOutOfRangeException(nameof(uncertainty), uncertainty, "expected a finite number above 0.");
        }

        int decimals = 1 - (int)Math.Floor(Math.Log10(uncertainty));

        // 0.0996 rounds to 0.10, which already has its two digits one decimal earlier.
        if (decimals > 0 && Math.Round(uncertainty * Math.Pow(10, decimals), MidpointRounding.AwayFromZero) >= 100)
        {
            decimals--;
        }

        return Math.Clamp(decimals, 0, MostDecimals);
    }

    /// <summary>Value and uncertainty to the same decimals, for example "1.23 ± 0.12".</summary>
    /// <param name="value">The value.</param>
    /// <param name="uncertainty">The uncertainty, above 0 and finite.</param>
    public static string Format(double value, double uncertainty)
    {
        string format = "F" + Decimals(uncertainty).ToString(CultureInfo.InvariantCulture);
        return $"{value.ToString(format, CultureInfo.InvariantCulture)} ± {uncertainty.ToString(format, CultureInfo.InvariantCulture)}";
    }
}
