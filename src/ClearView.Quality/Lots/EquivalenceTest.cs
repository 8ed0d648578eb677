using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Lots;

/// <summary>Two one-sided tests of equivalence (Schuirmann 1987), with Welch's degrees of freedom.</summary>
/// <param name="Margin">The margin that the user stated.</param>
/// <param name="T">The statistic of the one-sided test with the greater p-value.</param>
/// <param name="DegreesOfFreedom">Not necessarily whole.</param>
/// <param name="PValue">The greater of the two one-sided p-values.</param>
/// <param name="Interval">The (1 − 2α) interval of the difference.</param>
/// <param name="Shown">Whether that interval lies within the margin: the lots are equivalent.</param>
public sealed record EquivalenceTest(double Margin, double T, double DegreesOfFreedom, double PValue, Interval Interval, bool Shown);
