using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Lots;

/// <summary>A two-sided t test of a difference.</summary>
/// <param name="T">Statistic.</param>
/// <param name="DegreesOfFreedom">Not necessarily whole.</param>
/// <param name="PValue">Probability of such a |t| or a greater one if there were no difference.</param>
/// <param name="Interval">Confidence interval of the difference.</param>
public sealed record TTest(double T, double DegreesOfFreedom, double PValue, Interval Interval);
