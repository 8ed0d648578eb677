using ClearView.Quality.Descriptive;
using ClearView.Quality.Distributions;

namespace ClearView.Quality.ControlCharts;

/// <summary>Whether readings follow each other too closely for control limits to mean what they say.</summary>
/// <param name="Count">Number of readings n.</param>
/// <param name="FirstLag">r₁: correlation of each reading with the one before.</param>
/// <param name="Bound">2/√n: beyond it r₁ differs from 0 at about 95 %.</param>
/// <param name="Lags">Number of lags m in the joint test.</param>
/// <param name="LjungBox">Q = n(n + 2) Σ rₖ²/(n − k) (Ljung and Box 1978).</param>
/// <param name="PValue">Probability of such a Q, or a larger one, without autocorrelation: chi-squared with m degrees of freedom.</param>
public sealed record AutocorrelationCheck(int Count, double FirstLag, double Bound, int Lags, double LjungBox, double PValue)
{
    private string PValueInWords => PValue < 0.0001 ? "p < 0.0001" : FormattableString.Invariant($"p = {PValue:0.####}");

    /// <summary>The caution, in words; <see langword="null"/> where there is no sign of autocorrelation.</summary>
    /// <param name="limits">The limits that it concerns, for example "limits from the moving range".</param>
    public string? CautionOn(string limits) =>
        Math.Abs(FirstLag) > Bound ? FormattableString.Invariant(
            $"readings depend on those before them (lag-1 correlation {FirstLag:0.00}, bound ±{Bound:0.00}; Ljung-Box over {Lags} lags {PValueInWords}): {limits} are {(FirstLag > 0 ? "too narrow" : "too wide")}, and signals {(FirstLag > 0 ? "more" : "less")} frequent than for independent readings")
        : PValue < 0.05 ? FormattableString.Invariant(
            $"readings depend on earlier ones, though not on the one just before (lag-1 correlation {FirstLag:0.00}, bound ±{Bound:0.00}; Ljung-Box over {Lags} lags {PValueInWords}): {limits} may be too narrow or too wide")
        : null;

    /// <summary>Checks a series.</summary>
    /// <param name="readings">The readings in the order of measurement, finite.</param>
    /// <param name="lags">Number of lags, 1 or more; without it the smaller of 10 and a fifth of the readings.</param>
    /// <returns><see langword="null"/> where there are fewer than 4 readings, or none differs.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There are as many lags as readings, or less than one.</exception>
    public static AutocorrelationCheck? Of(ReadOnlySpan<double> readings, int? lags = null)
    {
        int n = readings.Length;
        if (n < 4)
        {
            return null;
        }

        int m = lags ?? Math.Clamp(n / 5, 1, 10);
        if (m < 1 || m >= n)
        {
            throw new ArgumentOutOfRangeException(nameof(lags), m, "expected 1 or more lags, fewer than readings.");
        }

        double sum = 0;
        foreach (double reading in readings)
        {
            Finite.Check(reading, nameof(readings));
            sum += reading - readings[0];
        }

        double mean = readings[0] + (sum / n);
        double square = Product(readings, mean, 0);
        if (!(square > 0))
        {
            return null;
        }

        double first = 0;
        double q = 0;
        for (int lag = 1; lag <= m; lag++)
        {
            double r = Product(readings, mean, lag) / square;
            first = lag == 1 ? r : first;
            q += r * r / (n - lag);
        }

        q *= n * (n + 2.0);
        return new AutocorrelationCheck(n, first, 2 / Math.Sqrt(n), m, q, TestTail.ChiSquaredUpper(q, m));
    }

    private static double Product(ReadOnlySpan<double> readings, double mean, int lag)
    {
        double sum = 0;
        for (int i = lag; i < readings.Length; i++)
        {
            sum += (readings[i] - mean) * (readings[i - lag] - mean);
        }

        return sum;
    }
}
