using MathNet.Numerics;

namespace ClearView.Quality.Distributions;

/// <summary>Tails and quantiles of the t, F and chi-squared distributions, from the incomplete beta and gamma functions.</summary>
/// <remarks>Small tails are computed as such, and quantiles are bounded by nothing, which the ready-made distributions do not give.</remarks>
internal static class TestTail
{
    /// <summary>Probability of t above <paramref name="t"/>.</summary>
    public static double StudentUpper(double t, double degreesOfFreedom)
    {
        if (double.IsInfinity(degreesOfFreedom))
        {
            return NormalTail.Upper(t);
        }

        // Where the tail is large, its complement; where it is small, the tail itself.
        double tail = t * t < 9
            ? 0.5 - (0.5 * SpecialFunctions.BetaRegularized(0.5, degreesOfFreedom / 2, t * t / (degreesOfFreedom + (t * t))))
            : 0.5 * SpecialFunctions.BetaRegularized(degreesOfFreedom / 2, 0.5, degreesOfFreedom / (degreesOfFreedom + (t * t)));
        return t < 0 ? 1 - tail : tail;
    }

    /// <summary>Probability of |t| above that of <paramref name="t"/>.</summary>
    public static double StudentTwoSided(double t, double degreesOfFreedom) => 2 * StudentUpper(Math.Abs(t), degreesOfFreedom);

    /// <summary>The value that t exceeds with probability <paramref name="upper"/>.</summary>
    public static double StudentUpperQuantile(double upper, double degreesOfFreedom) =>
        upper > 0.5 ? -StudentUpperQuantile(1 - upper, degreesOfFreedom)
        : upper == 0.5 ? 0
        : double.IsInfinity(degreesOfFreedom) ? NormalTail.UpperQuantile(upper)
        : Math.Exp(MonotoneRoot.Find(
            logT => Math.Log(StudentUpper(Math.Exp(logT), degreesOfFreedom)) - Math.Log(upper), Math.Log(NormalTail.UpperQuantile(upper)), 0.25));

    /// <summary>Probability of F above <paramref name="f"/>.</summary>
    public static double FisherUpper(double f, double numerator, double denominator)
    {
        if (f <= 0)
        {
            return 1;
        }

        double share = numerator * f / (denominator + (numerator * f));
        double lower = share < 0.1 ? SpecialFunctions.BetaRegularized(numerator / 2, denominator / 2, share) : 1;
        return lower < 0.999
            ? 1 - lower
            : SpecialFunctions.BetaRegularized(denominator / 2, numerator / 2, denominator / (denominator + (numerator * f)));
    }

    /// <summary>The value that F exceeds with probability <paramref name="upper"/>.</summary>
    public static double FisherUpperQuantile(double upper, double numerator, double denominator) =>
        upper > 0.5
            ? 1 / FisherUpperQuantile(1 - upper, denominator, numerator)
            : Math.Exp(MonotoneRoot.Find(
                logF => Math.Log(FisherUpper(Math.Exp(logF), numerator, denominator)) - Math.Log(upper), 0, 0.5));

    /// <summary>Probability of chi-squared above <paramref name="value"/>.</summary>
    public static double ChiSquaredUpper(double value, double degreesOfFreedom) =>
        value <= 0 ? 1 : SpecialFunctions.GammaUpperRegularized(degreesOfFreedom / 2, value / 2);

    /// <summary>The value that chi-squared exceeds with probability <paramref name="upper"/>.</summary>
    public static double ChiSquaredUpperQuantile(double upper, double degreesOfFreedom)
    {
        double Distance(double logValue)
        {
            double value = Math.Exp(logValue);
            return upper <= 0.5
                ? Math.Log(Math.Max(ChiSquaredUpper(value, degreesOfFreedom), double.Epsilon)) - Math.Log(upper)
                : Math.Log(1 - upper) - Math.Log(Math.Max(SpecialFunctions.GammaLowerRegularized(degreesOfFreedom / 2, value / 2), double.Epsilon));
        }

        return Math.Exp(MonotoneRoot.Find(Distance, Math.Log(degreesOfFreedom), 0.25));
    }
}
