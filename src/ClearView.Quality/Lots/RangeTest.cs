using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Lots;

/// <summary>A comparison of one pair among all, by the studentised range: the confidence holds for all pairs together.</summary>
/// <param name="Q">Studentised range of the pair.</param>
/// <param name="DegreesOfFreedom">Not necessarily whole.</param>
/// <param name="PValue">Adjusted for the number of pairs.</param>
/// <param name="Interval">Simultaneous confidence interval of the difference.</param>
public sealed record RangeTest(double Q, double DegreesOfFreedom, double PValue, Interval Interval);
