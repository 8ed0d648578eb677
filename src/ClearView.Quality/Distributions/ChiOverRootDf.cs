using MathNet.Numerics;

namespace ClearView.Quality.Distributions;

/// <summary>How a sample's standard deviation, as a multiple of the true one, is distributed: chi over the root of its degrees of freedom.</summary>
/// <remarks>Studentised quantities are mixtures over it.</remarks>
internal sealed class ChiOverRootDf
{
    private readonly double _logFactor;

    /// <param name="degreesOfFreedom">At least 1, finite.</param>
    public ChiOverRootDf(double degreesOfFreedom)
    {
        DegreesOfFreedom = degreesOfFreedom;
        double half = degreesOfFreedom / 2;
        _logFactor = Math.Log(2) + (0.5 * Math.Log(half / (2 * Math.PI))) - StirlingRemainder(half);
    }

    public double DegreesOfFreedom { get; }

    /// <summary>A width of the distribution around 1.</summary>
    public double Width => 1 / Math.Sqrt(2 * DegreesOfFreedom);

    /// <summary>Natural logarithm of the density at <paramref name="s"/> &gt; 0.</summary>
    /// <remarks>Written around s = 1, so that nothing large cancels at many degrees of freedom.</remarks>
    public double LogDensity(double s) =>
        _logFactor + ((DegreesOfFreedom - 1) * Log(s)) + (DegreesOfFreedom / 2 * (1 - s) * (1 + s));

    private static double Log(double s) => Math.Abs(s - 1) < 0.25 ? NearOne.Log1P(s - 1) : Math.Log(s);

    // ln Γ(a) - ((a - 1/2) ln a - a + ln(2π)/2); the asymptotic series is good to 2·10⁻¹⁴ from a = 10 on.
    private static double StirlingRemainder(double a)
    {
        if (a < 10)
        {
            return SpecialFunctions.GammaLn(a) - (((a - 0.5) * Math.Log(a)) - a + (0.5 * Math.Log(2 * Math.PI)));
        }

        double inverse = 1 / a;
        double square = inverse * inverse;
        return inverse * ((1.0 / 12) - (square * ((1.0 / 360) - (square * ((1.0 / 1260) - (square * ((1.0 / 1680) - (square / 1188))))))));
    }
}
