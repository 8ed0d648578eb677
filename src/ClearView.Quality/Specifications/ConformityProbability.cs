using MathNet.Numerics.Distributions;

namespace ClearView.Quality.Specifications;

/// <summary>Probability that a quantity lies within limits, given its measured value (JCGM 106, 7).</summary>
/// <remarks>
/// With infinite degrees of freedom the state of knowledge is N(y, u²) (JCGM 106, 7.2 to 7.4). With ν finite it is the t
/// distribution with ν degrees of freedom, moved to y and scaled by u (JCGM 101, 6.4.9), which agrees with a coverage factor
/// taken from the same t. Prior knowledge of the process is not used.
/// </remarks>
public static class ConformityProbability
{
    /// <summary>Computes it.</summary>
    /// <param name="value">y, the measured value.</param>
    /// <param name="standardUncertainty">u, 0 or more, in the unit of the value.</param>
    /// <param name="degreesOfFreedom">ν, above 0; may be infinite.</param>
    /// <param name="lower">Lower limit; <see langword="null"/> for none.</param>
    /// <param name="upper">Upper limit; <see langword="null"/> for none.</param>
    /// <returns>0-1; with u = 0 the one or the other.</returns>
    /// <exception cref="ArgumentOutOfRangeException">u or ν is outside its range.</exception>
    public static double Of(double value, double standardUncertainty, double degreesOfFreedom, double? lower, double? upper)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(standardUncertainty);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(degreesOfFreedom);
        if (standardUncertainty == 0)
        {
            return value < lower || value > upper ? 0 : 1;
        }

        // Each tail from its own side, so that a small risk is not lost in a difference from 1.
        double below = lower is { } l ? Tail((l - value) / standardUncertainty, degreesOfFreedom) : 0;
        double above = upper is { } u ? Tail((value - u) / standardUncertainty, degreesOfFreedom) : 0;
        return Math.Clamp(1 - below - above, 0, 1);
    }

    private static double Tail(double z, double degreesOfFreedom) =>
        degreesOfFreedom > 1e6 ? Normal.CDF(0, 1, z) : StudentT.CDF(0, 1, degreesOfFreedom, z);
}
