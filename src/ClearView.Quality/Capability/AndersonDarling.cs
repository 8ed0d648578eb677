using MathNet.Numerics;

namespace ClearView.Quality.Capability;

/// <summary>Anderson-Darling test of normality with mean and standard deviation estimated (D'Agostino and Stephens 1986).</summary>
/// <param name="Count">Number of readings tested.</param>
/// <param name="Statistic">A².</param>
/// <param name="Adjusted">A*² = A² (1 + 0.75/n + 2.25/n²).</param>
/// <param name="PValue">Probability of such a statistic, or a larger one, for normal readings; 3.7e-24 stands for "not above".</param>
public sealed record AndersonDarling(int Count, double Statistic, double Adjusted, double PValue)
{
    /// <summary>Fewest readings that are tested.</summary>
    public const int LeastReadings = 8;

    // Half of √2: Φ(z) = erfc(−z/√2)/2.
    private const double HalfRoot = 0.70710678118654752440;

    /// <summary>Tests readings.</summary>
    /// <param name="readings">The readings, finite, in any order.</param>
    /// <returns><see langword="null"/> where there are fewer than 8 readings, or none differs.</returns>
    public static AndersonDarling? Of(ReadOnlySpan<double> readings)
    {
        int n = readings.Length;
        if (n < LeastReadings)
        {
            return null;
        }

        double[] sorted = readings.ToArray();
        Array.Sort(sorted);
        Moments moments = Moments.Of(sorted);
        if (!(moments.StandardDeviation > 0))
        {
            return null;
        }

        double sum = 0;
        for (int i = 0; i < n; i++)
        {
            double low = (sorted[i] - moments.Mean) / moments.StandardDeviation;
            double high = (sorted[n - 1 - i] - moments.Mean) / moments.StandardDeviation;
            sum += ((2 * i) + 1.0) * (LogCumulative(low) + LogCumulative(-high));
        }

        double statistic = -n - (sum / n);
        double adjusted = statistic * (1 + (0.75 / n) + (2.25 / n / n));
        return new AndersonDarling(n, statistic, adjusted, P(adjusted));
    }

    // D'Agostino and Stephens (1986), table 4.9, from memory. The last formula turns upwards again far out, so it ends at 10.
    private static double P(double a) => a switch
    {
        < 0.2 => 1 - Math.Exp(-13.436 + (101.14 * a) - (223.73 * a * a)),
        < 0.34 => 1 - Math.Exp(-8.318 + (42.796 * a) - (59.938 * a * a)),
        < 0.6 => Math.Exp(0.9177 - (4.279 * a) - (1.38 * a * a)),
        < 10 => Math.Exp(1.2937 - (5.709 * a) + (0.0186 * a * a)),
        _ => 3.7e-24,
    };

    // Far out, where Φ underflows, its leading term: φ(z)/|z|.
    private static double LogCumulative(double z) =>
        z < -35 ? (-z * z / 2) - Math.Log(-z) - (0.5 * Math.Log(2 * Math.PI)) : Math.Log(0.5 * SpecialFunctions.Erfc(-z * HalfRoot));
}
