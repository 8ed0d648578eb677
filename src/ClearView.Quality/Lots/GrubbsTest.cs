using ClearView.Quality.Descriptive;
using ClearView.Quality.Distributions;

namespace ClearView.Quality.Lots;

/// <summary>Grubbs' test for one outlier (Grubbs 1969; ISO 16269-4; NIST/SEMATECH e-Handbook 1.3.5.17.1).</summary>
internal static class GrubbsTest
{
    /// <summary>The farthest specimen with its p-value; <see langword="null"/> below three specimens or without spread.</summary>
    public static Outlier? Farthest(Lot lot, DescriptiveStatistics statistics)
    {
        if (statistics.Count < 3 || statistics.StandardDeviation is not > 0)
        {
            return null;
        }

        double n = statistics.Count;
        int position = Enumerable.Range(0, lot.Values.Length).MaxBy(i => Math.Abs(lot.Values[i] - statistics.Mean));
        double g = Math.Abs(lot.Values[position] - statistics.Mean) / statistics.StandardDeviation!.Value;
        double rest = ((n - 1) * (n - 1)) - (n * g * g);
        double t = rest > 0 ? Math.Sqrt(n * (n - 2) * g * g / rest) : double.MaxValue;
        return new Outlier(position, lot.Values[position], g, rest > 0 ? Math.Min(1, n * TestTail.StudentTwoSided(t, n - 2)) : 0);
    }
}
