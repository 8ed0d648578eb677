using ClearView.Quality.Descriptive;
using ClearView.Quality.Distributions;

namespace ClearView.Quality.Lots;

/// <summary>How the variance of a specimen divides: between lots, and between specimens within a lot, the lots being a sample of many.</summary>
/// <param name="BetweenLots">Analysis-of-variance estimate of the variance between lots, zero where it comes out negative.</param>
/// <param name="WithinLots">Variance of specimens within a lot.</param>
/// <param name="BetweenWasNegative">Whether the estimate came out negative and was set to zero.</param>
/// <param name="ShareInterval">Confidence interval of the share of the variance that lies between lots (Wald 1940), exact for unequal sizes too.</param>
/// <param name="WithinInterval">Confidence interval of the variance within lots, from chi-squared.</param>
public sealed record VarianceComponents(
    double BetweenLots, double WithinLots, bool BetweenWasNegative, Interval ShareInterval, Interval WithinInterval)
{
    /// <summary>Share of the variance that lies between lots, 0 to 1.</summary>
    public double BetweenShare => BetweenLots / (BetweenLots + WithinLots);

    internal static Stated<VarianceComponents> Of(IReadOnlyList<LotSummary> lots, AnovaTable anova, double confidence)
    {
        if (anova.Test.Value is not { } test)
        {
            return Stated<VarianceComponents>.Not(anova.Test.Reason!.Value, anova.Test.Explanation!);
        }

        double[] sizes = [.. lots.Select(lot => (double)lot.Statistics.Count)];
        double origin = lots[0].Statistics.Mean;
        double[] means = [.. lots.Select(lot => lot.Statistics.Mean - origin)];
        double within = anova.WithinMeanSquare!.Value;
        double perLot = (sizes.Sum() - (sizes.Sum(n => n * n) / sizes.Sum())) / (lots.Count - 1);
        double between = (anova.BetweenMeanSquare - within) / perLot;
        double tail = (1 - confidence) / 2;
        double degrees = anova.WithinDegreesOfFreedom;

        // F of the means weighted for a ratio ρ of the two variances: it falls as ρ rises.
        double Weighted(double ratio)
        {
            double[] weights = [.. sizes.Select(n => n / (1 + (n * ratio)))];
            double centre = weights.Zip(means, (weight, mean) => weight * mean).Sum() / weights.Sum();
            return weights.Zip(means, (weight, mean) => weight * Math.Pow(mean - centre, 2)).Sum() / (lots.Count - 1) / within;
        }

        double RatioAt(double f) => test.F <= f ? 0 : Math.Exp(MonotoneRoot.Find(log => Math.Log(Weighted(Math.Exp(log)) / f), 0, 1));
        double lower = RatioAt(TestTail.FisherUpperQuantile(tail, lots.Count - 1, degrees));
        double upper = RatioAt(TestTail.FisherUpperQuantile(1 - tail, lots.Count - 1, degrees));
        return Stated<VarianceComponents>.As(new VarianceComponents(
            Math.Max(0, between),
            within,
            between < 0,
            new Interval(lower / (1 + lower), upper / (1 + upper)),
            new Interval(
                anova.WithinSquares / TestTail.ChiSquaredUpperQuantile(tail, degrees),
                anova.WithinSquares / TestTail.ChiSquaredUpperQuantile(1 - tail, degrees))));
    }
}
