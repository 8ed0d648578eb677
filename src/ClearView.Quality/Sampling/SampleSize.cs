using ClearView.Quality.Descriptive;
using ClearView.Quality.Distributions;

namespace ClearView.Quality.Sampling;

/// <summary>How many specimens answer a question.</summary>
public static class SampleSize
{
    /// <summary>More than this is not a plan: the question is refused.</summary>
    public const int Largest = 1_000_000;

    /// <summary>Specimens for a mean with a known standard deviation: the least n with z·σ/√n ≤ margin (ISO 2602; NIST/SEMATECH e-Handbook 7.2.2.2).</summary>
    /// <param name="standardDeviation">σ, known from long practice; above 0.</param>
    /// <param name="margin">Half the width of the interval wanted, in the same unit; above 0.</param>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range, or more than <see cref="Largest"/> would be needed.</exception>
    public static int ForMeanKnownSpread(double standardDeviation, double margin, double confidence = 0.95)
    {
        double ratio = Guard.Positive(standardDeviation) / Guard.Positive(margin);
        double z = NormalTail.UpperQuantile((1 - Probability.Inside(confidence)) / 2);
        return Bounded(Math.Pow(z * ratio, 2), margin);
    }

    /// <summary>Specimens for a mean whose standard deviation is estimated from them: the least n with t(n − 1)·s/√n ≤ margin.</summary>
    /// <remarks>The standard deviation is a guess from earlier specimens; the interval that results may be wider or narrower.</remarks>
    /// <inheritdoc cref="ForMeanKnownSpread" path="/exception"/>
    /// <param name="expectedStandardDeviation">s, from a pilot sample; above 0.</param>
    /// <param name="margin">Half the width of the interval wanted, in the same unit; above 0.</param>
    /// <param name="confidence">Strictly between 0 and 1.</param>
    public static int ForMean(double expectedStandardDeviation, double margin, double confidence = 0.95)
    {
        double tail = (1 - confidence) / 2;
        int from = Math.Max(2, ForMeanKnownSpread(expectedStandardDeviation, margin, confidence));
        return Least(
            from, n => TestTail.StudentUpperQuantile(tail, n - 1) * expectedStandardDeviation / Math.Sqrt(n) <= margin, margin);
    }

    /// <summary>Specimens per lot for a two-sided t test to show a true difference of two lot means, from the non-central t distribution.</summary>
    /// <param name="standardDeviation">Of specimens within a lot, the same in both; above 0.</param>
    /// <param name="difference">True difference of the means, in the same unit; above 0.</param>
    /// <param name="power">Probability of showing it, strictly between 0 and 1.</param>
    /// <param name="significance">α of the test, strictly between 0 and 1.</param>
    /// <inheritdoc cref="ForMeanKnownSpread" path="/exception"/>
    public static int ToShowDifference(double standardDeviation, double difference, double power = 0.8, double significance = 0.05)
    {
        double effect = Guard.Positive(difference) / Guard.Positive(standardDeviation);
        Probability.Inside(power);
        Probability.Inside(significance);
        return Least(2, n => PowerToShowDifference(n, effect, significance) >= power, difference);
    }

    /// <summary>Specimens per lot for two one-sided tests to show two lots equivalent within a margin.</summary>
    /// <remarks>The power used, P(lower test rejects) + P(upper test rejects) − 1, is never above the true one, so that the answer errs towards more specimens.</remarks>
    /// <param name="standardDeviation">Of specimens within a lot, the same in both; above 0.</param>
    /// <param name="difference">True difference of the means; smaller in size than the margin.</param>
    /// <param name="margin">Equivalence margin; above 0.</param>
    /// <param name="power">Probability of showing it, strictly between 0 and 1.</param>
    /// <param name="significance">α of each one-sided test, strictly between 0 and 0.5.</param>
    /// <inheritdoc cref="ForMeanKnownSpread" path="/exception"/>
    public static int ToShowEquivalence(double standardDeviation, double difference, double margin, double power = 0.8, double significance = 0.05)
    {
        Guard.Positive(standardDeviation);
        Guard.Positive(margin);
        Probability.Inside(power);
        Probability.Inside(significance);
        if (!(Math.Abs(difference) < margin))
        {
            throw new ArgumentOutOfRangeException(nameof(difference), difference, $"difference was {difference}; expected smaller in size than the margin {margin}.");
        }

        return Least(2, n => PowerToShowEquivalence(n, standardDeviation, difference, margin, significance) >= power, difference);
    }

    /// <summary>Specimens per lot for an analysis of variance to show lot means as far apart as stated, from the non-central F distribution.</summary>
    /// <param name="standardDeviation">Of specimens within a lot, the same in all; above 0.</param>
    /// <param name="means">True means of the lots, not all the same.</param>
    /// <param name="power">Probability of showing it, strictly between 0 and 1.</param>
    /// <param name="significance">α of the test, strictly between 0 and 1.</param>
    /// <inheritdoc cref="ForMeanKnownSpread" path="/exception"/>
    public static int ToShowDifferences(double standardDeviation, IReadOnlyCollection<double> means, double power = 0.8, double significance = 0.05)
    {
        Guard.Positive(standardDeviation);
        Guard.Values(means);
        Probability.Inside(power);
        Probability.Inside(significance);
        double perSpecimen = DoubleDouble.SquaresAround(means, DoubleDouble.Mean(means)).ToDouble() / (standardDeviation * standardDeviation);
        Guard.Positive(perSpecimen, nameof(means));
        int lots = means.Count;
        return Least(
            2,
            n => NoncentralF.UpperTail(
                TestTail.FisherUpperQuantile(significance, lots - 1, lots * (n - 1)), lots - 1, lots * (n - 1), Math.Min(1e8, n * perSpecimen)) >= power,
            perSpecimen);
    }

    internal static double PowerToShowDifference(int perLot, double effect, double significance)
    {
        double degrees = (2.0 * perLot) - 2;
        double critical = TestTail.StudentUpperQuantile(significance / 2, degrees);
        var distribution = new NoncentralT(degrees, Math.Min(1e4, effect * Math.Sqrt(perLot / 2.0)));
        return distribution.UpperTail(critical) + distribution.LowerTail(-critical);
    }

    internal static double PowerToShowEquivalence(int perLot, double standardDeviation, double difference, double margin, double significance)
    {
        double degrees = (2.0 * perLot) - 2;
        double error = standardDeviation * Math.Sqrt(2.0 / perLot);
        double critical = TestTail.StudentUpperQuantile(significance, degrees);
        double above = new NoncentralT(degrees, Math.Min(1e4, (difference + margin) / error)).UpperTail(critical);
        double below = new NoncentralT(degrees, Math.Max(-1e4, (difference - margin) / error)).LowerTail(-critical);
        return Math.Max(0, above + below - 1);
    }

    // The condition holds from some n on.
    private static int Least(int from, Func<int, bool> holds, double asked)
    {
        int enough = from;
        while (!holds(enough))
        {
            from = enough + 1;
            enough = enough >= Largest ? throw TooMany(asked) : Math.Min(Largest, 2 * enough);
        }

        while (from < enough)
        {
            int middle = from + ((enough - from) / 2);
            (from, enough) = holds(middle) ? (from, middle) : (middle + 1, enough);
        }

        return enough;
    }

    private static int Bounded(double needed, double asked) =>
        needed <= Largest ? Math.Max(1, (int)Math.Ceiling(needed * (1 - 1e-12))) : throw TooMany(asked);

    private static ArgumentOutOfRangeException TooMany(double asked) =>
        new(nameof(asked), asked, $"More than {Largest} specimens would be needed to resolve {asked}.");
}
