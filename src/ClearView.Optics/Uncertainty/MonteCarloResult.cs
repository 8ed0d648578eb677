namespace ClearView.Optics.Uncertainty;

/// <summary>One output quantity by the Monte Carlo method (JCGM 101, 7.6 to 7.9).</summary>
/// <param name="Mean">Mean of the trials.</param>
/// <param name="StandardUncertainty">Standard deviation of the trials.</param>
/// <param name="IntervalLow">Lower end of the probabilistically symmetric coverage interval.</param>
/// <param name="IntervalHigh">Upper end.</param>
/// <param name="Trials">Number of trials.</param>
/// <param name="NumericalTolerance">δ that the run was to reach (JCGM 101, 7.9.2).</param>
/// <param name="IsStable">Whether mean, standard uncertainty and interval are stable to the tolerance.</param>
/// <param name="UndefinedShare">Share of trials in which the quantity was undefined, 0-1; those are left out.</param>
public sealed record MonteCarloResult(
    double Mean,
    double StandardUncertainty,
    double IntervalLow,
    double IntervalHigh,
    int Trials,
    double NumericalTolerance,
    bool IsStable,
    double UndefinedShare)
{
    /// <summary>Compares with a linear result y ± U (JCGM 101, 8.1): whether both ends agree within the tolerance.</summary>
    /// <param name="value">y.</param>
    /// <param name="expandedUncertainty">U at the same coverage probability.</param>
    /// <param name="tolerance">δ; see <see cref="Tolerance"/>.</param>
    public bool Validates(double value, double expandedUncertainty, double tolerance) =>
        Math.Abs(value - expandedUncertainty - IntervalLow) <= Math.Max(tolerance, Rounding(value))
        && Math.Abs(value + expandedUncertainty - IntervalHigh) <= Math.Max(tolerance, Rounding(value));

    /// <summary>What sums over spectra leave of rounding: where errors cancel, u is no more than this and δ would be next to nothing.</summary>
    internal static double Rounding(double value) => 1e-12 * Math.Abs(value);

    /// <summary>δ = ½·10^l, where u is written as c·10^l with c of so many digits (JCGM 101, 7.9.2).</summary>
    /// <param name="standardUncertainty">u, above 0.</param>
    /// <param name="significantDigits">Digits of c.</param>
    public static double Tolerance(double standardUncertainty, int significantDigits)
    {
        if (!(standardUncertainty > 0))
        {
            return 0;
        }

        double exponent = Math.Floor(Math.Log10(standardUncertainty)) - significantDigits + 1;
        double digits = Math.Round(standardUncertainty / Math.Pow(10, exponent), MidpointRounding.AwayFromZero);
        return 0.5 * Math.Pow(10, digits >= Math.Pow(10, significantDigits) ? exponent + 1 : exponent);
    }
}
