using MathNet.Numerics;

namespace ClearView.Quality.Distributions;

/// <summary>The standard normal distribution, each tail with its own digits.</summary>
internal static class NormalTail
{
    private const double LogSqrtTwoPi = 0.91893853320467274178;

    /// <summary>Probability below <paramref name="z"/>.</summary>
    public static double Lower(double z) => 0.5 * SpecialFunctions.Erfc(-z / Constants.Sqrt2);

    /// <summary>Probability above <paramref name="z"/>.</summary>
    public static double Upper(double z) => 0.5 * SpecialFunctions.Erfc(z / Constants.Sqrt2);

    /// <summary>Density.</summary>
    public static double Density(double z) => Math.Exp((-0.5 * z * z) - LogSqrtTwoPi);

    /// <summary>The value that a share <paramref name="upper"/> of the distribution lies above.</summary>
    public static double UpperQuantile(double upper) => Constants.Sqrt2 * SpecialFunctions.ErfcInv(2 * upper);
}
