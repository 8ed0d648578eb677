namespace ClearView.Quality.Distributions;

/// <summary>Logarithm and exponential where a 1 would swallow the digits, by Kahan's corrections.</summary>
/// <remarks>The ready-made functions keep eight digits only of e^x − 1 around 0.1, and take a thousand times as long for ln(1 + x) near zero.</remarks>
internal static class NearOne
{
    /// <summary>ln(1 + x), x at least −1.</summary>
    public static double Log1P(double x)
    {
        double one = 1 + x;
        return one == 1 ? x : one <= 0 ? double.NegativeInfinity : Math.Log(one) * x / (one - 1);
    }

    /// <summary>eˣ − 1.</summary>
    public static double ExpM1(double x)
    {
        double power = Math.Exp(x);
        return power == 1 ? x
            : power is < 0.5 or > 2 ? power - 1
            : (power - 1) * x / Math.Log(power);
    }
}
