using System.Globalization;

namespace ClearView.Benchmarks.Measuring;

/// <summary>Figures of a sample, and how they are written.</summary>
internal static class Figures
{
    /// <summary>The value that a fraction of the sample does not exceed (nearest rank).</summary>
    public static double Quantile(IReadOnlyCollection<double> sample, double fraction) =>
        sample.Order().ElementAt(Math.Max(0, (int)Math.Ceiling(fraction * sample.Count) - 1));

    /// <summary>The middle value.</summary>
    public static double Median(IReadOnlyCollection<double> sample) => Quantile(sample, 0.5);

    /// <summary>Writes a number with so many decimals, thousands apart.</summary>
    public static string Text(double number, int decimals = 0) =>
        number.ToString("N" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).Replace(',', ' ');
}
