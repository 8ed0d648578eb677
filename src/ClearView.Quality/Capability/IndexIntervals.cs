using MathNet.Numerics.Distributions;

namespace ClearView.Quality.Capability;

/// <summary>Confidence intervals of the indices, for normal readings.</summary>
internal static class IndexIntervals
{
    /// <summary>Cp, Pp: Ĉ √(χ²/ν) at both quantiles (Kane 1986; NIST/SEMATECH e-Handbook 6.1.6).</summary>
    public static CapabilityIndex Spread(double value, double degreesOfFreedom, double level)
    {
        double tail = (1 - level) / 2;
        return new CapabilityIndex(value, value * Ratio(degreesOfFreedom, tail), value * Ratio(degreesOfFreedom, 1 - tail));
    }

    /// <summary>Cpk, Ppk: Ĉ ± z √(1/(9n) + Ĉ²/(2ν)) (Bissell 1990; NIST/SEMATECH e-Handbook 6.1.6).</summary>
    public static CapabilityIndex Located(double value, int count, double degreesOfFreedom, double level)
    {
        double z = Normal.InvCDF(0, 1, (1 + level) / 2);
        double width = z * Math.Sqrt((1 / (9.0 * count)) + (value * value / (2 * degreesOfFreedom)));
        return new CapabilityIndex(value, value - width, value + width);
    }

    /// <summary>Cpm: Ĉ √(χ²/ν), ν = n (1 + a²)²/(1 + 2a²), a = (mean − target)/s (Boyles 1991).</summary>
    public static CapabilityIndex Target(double value, int count, double offset, double level)
    {
        double square = offset * offset;
        return Spread(value, count * (1 + square) * (1 + square) / (1 + (2 * square)), level);
    }

    // Beyond a million degrees of freedom the normal limit of χ²/ν is exact to all digits that an index shows.
    private static double Ratio(double degreesOfFreedom, double probability) =>
        degreesOfFreedom > 1e6
            ? 1 + (Normal.InvCDF(0, 1, probability) / Math.Sqrt(2 * degreesOfFreedom))
            : Math.Sqrt(ChiSquared.InvCDF(degreesOfFreedom, probability) / degreesOfFreedom);
}
