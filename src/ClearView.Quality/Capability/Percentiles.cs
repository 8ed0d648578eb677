using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Capability;

/// <summary>The three percentiles that stand for mean ± 3σ (ISO 22514-2): 0.135 %, 50 %, 99.865 %.</summary>
/// <param name="Low">0.135 %.</param>
/// <param name="Median">50 %.</param>
/// <param name="High">99.865 %.</param>
public sealed record Percentiles(double Low, double Median, double High)
{
    /// <summary>Fewest readings from which the outer percentiles are taken without extrapolation.</summary>
    public const int LeastReadings = 1000;

    /// <summary>Share of a normal distribution below −3σ.</summary>
    internal const double LowShare = 0.0013498980316301;

    /// <summary>From readings: linear between order statistics, at (n − 1)p + 1.</summary>
    /// <param name="readings">The readings, one or more, in any order.</param>
    /// <exception cref="ArgumentException">There is no reading.</exception>
    public static Percentiles Of(ReadOnlySpan<double> readings)
    {
        if (readings.IsEmpty)
        {
            throw new ArgumentException("Percentiles need one reading or more.", nameof(readings));
        }

        double[] sorted = readings.ToArray();
        Array.Sort(sorted);
        return new Percentiles(
            DescriptiveStatistics.Quantile(sorted, LowShare),
            DescriptiveStatistics.Quantile(sorted, 0.5),
            DescriptiveStatistics.Quantile(sorted, 1 - LowShare));
    }
}
