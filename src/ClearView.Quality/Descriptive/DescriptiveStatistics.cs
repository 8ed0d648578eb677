using ClearView.Quality.Distributions;

namespace ClearView.Quality.Descriptive;

/// <summary>What a sample says of itself: place, spread, shape, and how well its mean and standard deviation are known.</summary>
/// <remarks>
/// Sums run over deviations in double-double arithmetic, so that shared leading digits cost nothing. What a sample is too small
/// or too uniform for is <see langword="null"/>, never not-a-number.
/// </remarks>
public sealed record DescriptiveStatistics
{
    private DescriptiveStatistics()
    {
    }

    /// <summary>Number of values.</summary>
    public required int Count { get; init; }

    /// <summary>Arithmetic mean.</summary>
    public required double Mean { get; init; }

    /// <summary>Standard deviation with n − 1; <see langword="null"/> for a single value.</summary>
    public required double? StandardDeviation { get; init; }

    /// <summary>Least value.</summary>
    public required double Minimum { get; init; }

    /// <summary>First quartile, by linear interpolation of order statistics at 1 + (n − 1)p (Hyndman and Fan 1996, definition 7).</summary>
    public required double LowerQuartile { get; init; }

    /// <summary>Median.</summary>
    public required double Median { get; init; }

    /// <summary>Third quartile, as <see cref="LowerQuartile"/>.</summary>
    public required double UpperQuartile { get; init; }

    /// <summary>Greatest value.</summary>
    public required double Maximum { get; init; }

    /// <summary>m₃/m₂^(3/2) of the central moments with divisor n (NIST/SEMATECH e-Handbook 1.3.5.11); <see langword="null"/> without spread.</summary>
    public required double? Skewness { get; init; }

    /// <summary>m₄/m₂² − 3, zero for a normal distribution (NIST/SEMATECH e-Handbook 1.3.5.11); <see langword="null"/> without spread.</summary>
    public required double? ExcessKurtosis { get; init; }

    /// <summary>Confidence of the intervals.</summary>
    public required double Confidence { get; init; }

    /// <summary>Confidence interval of the mean, from Student's t (ISO 2602); <see langword="null"/> for a single value.</summary>
    public required Interval? MeanInterval { get; init; }

    /// <summary>Confidence interval of the standard deviation, from chi-squared (ISO 2854); <see langword="null"/> for a single value.</summary>
    public required Interval? StandardDeviationInterval { get; init; }

    /// <summary>Variance; <see langword="null"/> for a single value.</summary>
    public double? Variance => StandardDeviation * StandardDeviation;

    /// <summary>Standard deviation of the mean, s/√n; <see langword="null"/> for a single value.</summary>
    public double? StandardError => StandardDeviation / Math.Sqrt(Count);

    /// <summary>Describes a sample.</summary>
    /// <param name="values">At least one, each finite.</param>
    /// <param name="confidence">Of the intervals, strictly between 0 and 1.</param>
    /// <exception cref="ArgumentException">There is no value, or one is not finite.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="confidence"/> is outside its range.</exception>
    public static DescriptiveStatistics Of(IReadOnlyCollection<double> values, double confidence = 0.95)
    {
        Guard.Values(values);
        Probability.Inside(confidence);
        double[] sorted = [.. values.Order()];
        int n = sorted.Length;
        DoubleDouble mean = DoubleDouble.Mean(sorted);
        double squares = sorted[0] == sorted[^1] ? 0 : DoubleDouble.SquaresAround(sorted, mean).ToDouble();
        double? deviation = n > 1 ? Math.Sqrt(squares / (n - 1)) : null;
        double tail = (1 - confidence) / 2;
        return new DescriptiveStatistics
        {
            Count = n,
            Mean = mean.ToDouble(),
            StandardDeviation = deviation,
            Minimum = sorted[0],
            LowerQuartile = Quantile(sorted, 0.25),
            Median = Quantile(sorted, 0.5),
            UpperQuartile = Quantile(sorted, 0.75),
            Maximum = sorted[^1],
            Skewness = squares > 0 ? Moment(sorted, mean, 3) / Math.Pow(squares / n, 1.5) : null,
            ExcessKurtosis = squares > 0 ? (Moment(sorted, mean, 4) / Math.Pow(squares / n, 2)) - 3 : null,
            Confidence = confidence,
            MeanInterval = deviation is { } s ? Interval.Around(mean.ToDouble(), TestTail.StudentUpperQuantile(tail, n - 1) * s / Math.Sqrt(n)) : null,
            StandardDeviationInterval = n > 1
                ? new Interval(
                    Math.Sqrt(squares / TestTail.ChiSquaredUpperQuantile(tail, n - 1)),
                    Math.Sqrt(squares / TestTail.ChiSquaredUpperQuantile(1 - tail, n - 1)))
                : null,
        };
    }

    /// <summary>Quantile by linear interpolation of order statistics (Hyndman and Fan 1996, definition 7).</summary>
    internal static double Quantile(double[] sorted, double probability)
    {
        double position = (sorted.Length - 1) * probability;
        int below = (int)position;
        return below + 1 < sorted.Length ? sorted[below] + ((position - below) * (sorted[below + 1] - sorted[below])) : sorted[below];
    }

    private static double Moment(double[] values, DoubleDouble mean, int order) =>
        values.Sum(value => Math.Pow(new DoubleDouble(value, 0).Subtract(mean).ToDouble(), order)) / values.Length;
}
