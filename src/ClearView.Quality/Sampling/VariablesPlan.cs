using ClearView.Quality.Distributions;

namespace ClearView.Quality.Sampling;

/// <summary>An acceptance plan by variables for one limit with unknown standard deviation: accept where (U − x̄)/s ≥ k, or (x̄ − L)/s ≥ k.</summary>
/// <remarks>
/// <para>
/// √n times the quality statistic follows the non-central t distribution with n − 1 degrees of freedom and noncentrality
/// z(1 − p)·√n, where p is the share of the lot beyond the limit; the values in the lot are taken to be normally distributed
/// (the form of plan of ISO 3951-1, s-method; Lieberman and Resnikoff 1955).
/// </para>
/// <para>Immutable.</para>
/// </remarks>
public sealed record VariablesPlan
{
    private VariablesPlan(int specimens, double acceptabilityConstant)
    {
        Specimens = specimens;
        AcceptabilityConstant = acceptabilityConstant;
    }

    /// <summary>n.</summary>
    public int Specimens { get; }

    /// <summary>k.</summary>
    public double AcceptabilityConstant { get; }

    /// <summary>Takes a plan as it is.</summary>
    /// <param name="specimens">n, 2 to 100000.</param>
    /// <param name="acceptabilityConstant">k, within ±10.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static VariablesPlan Of(int specimens, double acceptabilityConstant)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(specimens, 2);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(specimens, 100_000);
        return Math.Abs(acceptabilityConstant) <= 10
            ? new VariablesPlan(specimens, acceptabilityConstant)
            : throw new ArgumentOutOfRangeException(
                nameof(acceptabilityConstant), acceptabilityConstant, $"acceptabilityConstant was {acceptabilityConstant}; expected within ±10.");
    }

    /// <summary>The plan with the fewest specimens that keeps both risks.</summary>
    /// <remarks>Of the constants that keep both risks at that n, the middle one is taken.</remarks>
    /// <param name="acceptableQuality">Share beyond the limit of a lot that should pass (AQL or PRQ), strictly between 0 and 1.</param>
    /// <param name="rejectableQuality">Share beyond the limit of a lot that should not pass (RQL or CRQ), above the acceptable one and below 1.</param>
    /// <param name="producersRisk">α, probability of refusing the former; strictly between 0 and 0.5.</param>
    /// <param name="consumersRisk">β, probability of passing the latter; strictly between 0 and 0.5.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range, or no plan up to 100000 specimens keeps the risks.</exception>
    public static VariablesPlan For(double acceptableQuality, double rejectableQuality, double producersRisk = 0.05, double consumersRisk = 0.1)
    {
        Probability.Inside(acceptableQuality);
        Probability.Inside(rejectableQuality);
        Probability.Inside(2 * producersRisk, nameof(producersRisk));
        Probability.Inside(2 * consumersRisk, nameof(consumersRisk));
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(rejectableQuality, acceptableQuality);

        (double Greatest, double Least) Constants(int n) => (
            Distribution(n, acceptableQuality).Quantile(producersRisk) / Math.Sqrt(n),
            Distribution(n, rejectableQuality).UpperQuantile(consumersRisk) / Math.Sqrt(n));
        bool Keeps(int n)
        {
            (double greatest, double least) = Constants(n);
            return greatest >= least;
        }

        int enough = 2;
        int from = 2;
        while (!Keeps(enough))
        {
            from = enough + 1;
            enough = enough < 100_000
                ? Math.Min(100_000, 2 * enough)
                : throw new ArgumentOutOfRangeException(nameof(rejectableQuality), rejectableQuality, "No plan up to 100000 specimens keeps both risks: the two qualities lie too close.");
        }

        while (from < enough)
        {
            int middle = from + ((enough - from) / 2);
            (from, enough) = Keeps(middle) ? (from, middle) : (middle + 1, enough);
        }

        (double upper, double lower) = Constants(enough);
        return new VariablesPlan(enough, (upper + lower) / 2);
    }

    /// <summary>Probability that a lot passes, by the share of it that lies beyond the limit: a point of the operating characteristic curve.</summary>
    /// <param name="shareBeyondLimit">Strictly between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="shareBeyondLimit"/> is outside its range.</exception>
    public double ProbabilityOfAcceptance(double shareBeyondLimit) =>
        Distribution(Specimens, Probability.Inside(shareBeyondLimit)).UpperTail(Math.Sqrt(Specimens) * AcceptabilityConstant);

    /// <summary>Whether a sample passes an upper limit.</summary>
    /// <param name="mean">x̄.</param>
    /// <param name="standardDeviation">s, not negative.</param>
    /// <param name="upperLimit">U.</param>
    public bool AcceptsBelow(double mean, double standardDeviation, double upperLimit) =>
        upperLimit - mean >= AcceptabilityConstant * standardDeviation;

    /// <summary>Whether a sample passes a lower limit.</summary>
    /// <param name="mean">x̄.</param>
    /// <param name="standardDeviation">s, not negative.</param>
    /// <param name="lowerLimit">L.</param>
    public bool AcceptsAbove(double mean, double standardDeviation, double lowerLimit) =>
        mean - lowerLimit >= AcceptabilityConstant * standardDeviation;

    private static NoncentralT Distribution(int n, double share) => new(n - 1, NormalTail.UpperQuantile(share) * Math.Sqrt(n));
}
