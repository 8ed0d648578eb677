using MathNet.Numerics.Distributions;

namespace ClearView.Optics.Uncertainty;

/// <summary>Effective degrees of freedom and coverage factors (JCGM 100, annex G).</summary>
public static class Coverage
{
    /// <summary>Welch-Satterthwaite: ν = u⁴ / Σ uᵢ⁴/νᵢ (JCGM 100, G.2b).</summary>
    /// <param name="contributions">Standard uncertainties and degrees of freedom of independent contributions.</param>
    /// <returns>The effective degrees of freedom; infinite where every contribution's are, or where all are zero.</returns>
    public static double EffectiveDegreesOfFreedom(params ReadOnlySpan<(double StandardUncertainty, double DegreesOfFreedom)> contributions)
    {
        double variance = 0;
        double sum = 0;
        foreach ((double u, double degrees) in contributions)
        {
            double square = u * u;
            variance += square;
            sum += double.IsPositiveInfinity(degrees) ? 0 : square * square / degrees;
        }

        return sum > 0 ? variance * variance / sum : double.PositiveInfinity;
    }

    /// <summary>Coverage factor: t quantile, degrees of freedom truncated to a whole number (JCGM 100, G.4.2).</summary>
    /// <param name="probability">Coverage probability, in (0, 1).</param>
    /// <param name="degreesOfFreedom">Effective degrees of freedom, 1 or more; may be infinite.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument is outside its range.</exception>
    public static double Factor(double probability, double degreesOfFreedom)
    {
        if (!(probability is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(probability), probability, "expected a probability above 0 and below 1.");
        }

        double whole = Truncated(degreesOfFreedom);
        if (!(whole >= 1))
        {
            throw new ArgumentOutOfRangeException(nameof(degreesOfFreedom), degreesOfFreedom, "expected 1 or more degrees of freedom.");
        }

        double quantile = (1 + probability) / 2;
        return whole > 1e6 ? Normal.InvCDF(0, 1, quantile) : StudentT.InvCDF(0, 1, whole, quantile);
    }

    /// <summary>The whole number below, but the one meant where rounding has left 8.999999999999998 of 9.</summary>
    internal static double Truncated(double degreesOfFreedom) => Math.Floor(degreesOfFreedom * (1 + 1e-12));
}
