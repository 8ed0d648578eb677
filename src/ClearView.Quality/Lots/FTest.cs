namespace ClearView.Quality.Lots;

/// <summary>An F test.</summary>
/// <param name="F">Statistic.</param>
/// <param name="NumeratorDegreesOfFreedom">Of the numerator.</param>
/// <param name="DenominatorDegreesOfFreedom">Of the denominator, not necessarily whole.</param>
/// <param name="PValue">Probability of such an F or a greater one if there were no difference.</param>
public sealed record FTest(double F, double NumeratorDegreesOfFreedom, double DenominatorDegreesOfFreedom, double PValue);
