using MathNet.Numerics;

namespace ClearView.Quality.Distributions;

/// <summary>The upper tail of the non-central F distribution, which is the power of an analysis of variance.</summary>
internal static class NoncentralF
{
    /// <summary>A Poisson mixture of central distributions (Patnaik 1949), summed outward from its greatest weight.</summary>
    /// <param name="f">At least 0.</param>
    /// <param name="numerator">Degrees of freedom of the numerator.</param>
    /// <param name="denominator">Degrees of freedom of the denominator.</param>
    /// <param name="noncentrality">λ, at least 0: the sum of squares of the true means over the variance.</param>
    public static double UpperTail(double f, double numerator, double denominator, double noncentrality)
    {
        double half = noncentrality / 2;
        double x = denominator / (denominator + (numerator * f));
        double Term(int j) =>
            Math.Exp((j * Math.Log(half)) - half - SpecialFunctions.GammaLn(j + 1.0))
            * SpecialFunctions.BetaRegularized(denominator / 2, (numerator / 2) + j, x);

        if (half == 0)
        {
            return TestTail.FisherUpper(f, numerator, denominator);
        }

        int mode = (int)half;
        double sum = 0;
        for (int j = mode; j >= 0; j--)
        {
            double term = Term(j);
            sum += term;
            if (term < 1e-17 * sum)
            {
                break;
            }
        }

        for (int j = mode + 1; ; j++)
        {
            double term = Term(j);
            sum += term;
            if (!(term > 1e-17 * sum))
            {
                return Math.Min(1, sum);
            }
        }
    }
}
