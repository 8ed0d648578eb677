using ClearView.Quality.Descriptive;
using ClearView.Quality.Distributions;
using ClearView.Quality.Sampling;

using MathNet.Numerics;

namespace ClearView.Quality.Lots;

/// <summary>Everything that is said of two lots.</summary>
internal sealed class Pairwise(IReadOnlyList<LotSummary> lots, AnovaTable anova, LotComparisonOptions options)
{
    // The same for every pair that shares the residual variance.
    private readonly Lazy<StudentisedRangeCritical?> _common = new(() => anova.Test.Value is null
        ? null
        : new StudentisedRangeCritical(lots.Count, anova.WithinDegreesOfFreedom, options.Significance));

    public LotPair Compare(LotSummary first, LotSummary second)
    {
        DescriptiveStatistics a = first.Statistics;
        DescriptiveStatistics b = second.Statistics;
        double difference = a.Mean - b.Mean;
        (DegenerateReason Reason, string Explanation)? lacking = LacksWelch(first, second);
        double error = lacking is null ? Math.Sqrt((a.Variance!.Value / a.Count) + (b.Variance!.Value / b.Count)) : 0;
        double degrees = lacking is null ? WelchDegreesOfFreedom(a, b) : 0;
        Stated<T> OrLacking<T>(Func<T> compute)
            where T : class => lacking is { } reason ? Stated<T>.Not(reason.Reason, reason.Explanation) : Stated<T>.As(compute());

        double? pooled = PooledDeviation(a, b);
        return new LotPair(
            first.Name,
            second.Name,
            difference,
            OrLacking(() => Welch(difference, error, degrees)),
            TukeyKramer(difference, a.Count, b.Count),
            OrLacking(() => new StudentisedRangeCritical(lots.Count, degrees, options.Significance).Test(difference, error)),
            options.EquivalenceMargin is { } margin ? OrLacking(() => Equivalence(difference, error, degrees, margin)) : null,
            Effect(difference, a.Count, b.Count, pooled),
            Constants.Sqrt2 * options.ExpandedUncertainty,
            ToShowDifference(pooled, difference),
            ToShowEquivalence(pooled, difference));
    }

    private static (DegenerateReason Reason, string Explanation)? LacksWelch(LotSummary first, LotSummary second) =>
        first.Statistics.Count < 2 || second.Statistics.Count < 2 ? OneWay.LacksSpread([first, second])
        : first.Statistics.StandardDeviation == 0 && second.Statistics.StandardDeviation == 0
            ? (DegenerateReason.NoSpread, $"The specimens of lots {first.Name} and {second.Name} are identical within each lot: no test can be formed.")
            : null;

    private static double WelchDegreesOfFreedom(DescriptiveStatistics a, DescriptiveStatistics b)
    {
        double ofA = a.Variance!.Value / a.Count;
        double ofB = b.Variance!.Value / b.Count;
        // Shares rather than squares of variances, which could underflow.
        double share = ofA / (ofA + ofB);
        return 1 / ((share * share / (a.Count - 1)) + ((1 - share) * (1 - share) / (b.Count - 1)));
    }

    private static double? PooledDeviation(DescriptiveStatistics a, DescriptiveStatistics b)
    {
        double degrees = a.Count + b.Count - 2;
        double squares = ((a.Count - 1) * (a.Variance ?? 0)) + ((b.Count - 1) * (b.Variance ?? 0));
        return degrees > 0 && squares > 0 ? Math.Sqrt(squares / degrees) : null;
    }

    private TTest Welch(double difference, double error, double degrees) => new(
        difference / error,
        degrees,
        TestTail.StudentTwoSided(difference / error, degrees),
        Interval.Around(difference, error * TestTail.StudentUpperQuantile(options.Significance / 2, degrees)));

    private Stated<RangeTest> TukeyKramer(double difference, int first, int second) =>
        anova.Test.Value is null
            ? Stated<RangeTest>.Not(anova.Test.Reason!.Value, anova.Test.Explanation!)
            : Stated<RangeTest>.As(_common.Value!.Test(
                difference, Math.Sqrt(anova.WithinMeanSquare!.Value * ((1.0 / first) + (1.0 / second)))));

    private EquivalenceTest Equivalence(double difference, double error, double degrees, double margin)
    {
        double t = (margin - Math.Abs(difference)) / error;
        Interval interval = Interval.Around(difference, error * TestTail.StudentUpperQuantile(options.Significance, degrees));
        return new EquivalenceTest(margin, t, degrees, TestTail.StudentUpper(t, degrees), interval, interval.LiesWithin(-margin, margin));
    }

    private Stated<EffectSize> Effect(double difference, int first, int second, double? pooled)
    {
        if (pooled is not { } deviation)
        {
            return Stated<EffectSize>.Not(DegenerateReason.NoSpread, "There is no spread within the two lots to measure the difference by.");
        }

        double degrees = first + second - 2;
        double correction = degrees > 1
            ? Math.Exp(SpecialFunctions.GammaLn(degrees / 2) - SpecialFunctions.GammaLn((degrees - 1) / 2)) / Math.Sqrt(degrees / 2)
            : 0;
        if (correction == 0)
        {
            return Stated<EffectSize>.Not(DegenerateReason.TooFewSpecimens, "Three specimens in two lots are too few for an effect size.");
        }

        double root = Math.Sqrt((1.0 / first) + (1.0 / second));
        double t = difference / deviation / root;
        double tail = options.Significance / 2;
        double Noncentrality(double upper) => MonotoneRoot.Find(
            ncp => new NoncentralT(degrees, Math.Clamp(ncp, -1e4, 1e4)).UpperTail(t) - upper, t - 1, 2);
        return Math.Abs(t) > 1000
            ? Stated<EffectSize>.Not(DegenerateReason.NoSpread, "The spread within the two lots is too small to measure the difference by.")
            : Stated<EffectSize>.As(new EffectSize(
                correction * difference / deviation,
                new Interval(correction * root * Noncentrality(tail), correction * root * Noncentrality(1 - tail))));
    }

    private int? ToShowDifference(double? pooled, double difference) =>
        pooled is { } deviation && Math.Abs(difference) > deviation / 100
            ? SampleSize.ToShowDifference(deviation, Math.Abs(difference), options.Power, options.Significance)
            : null;

    private int? ToShowEquivalence(double? pooled, double difference) =>
        pooled is { } deviation && options.EquivalenceMargin is { } margin && options.Significance < 0.5
            && margin - Math.Abs(difference) > deviation / 100
            ? SampleSize.ToShowEquivalence(deviation, difference, margin, options.Power, options.Significance)
            : null;
}
