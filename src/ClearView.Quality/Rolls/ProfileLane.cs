namespace ClearView.Quality.Rolls;

/// <summary>One lane of the profile across the web (CD).</summary>
/// <param name="Lane">Lane, from 0.</param>
/// <param name="MiddleMm">Its middle, mm.</param>
/// <param name="Count">Number of readings.</param>
/// <param name="Mean">Mean of the means of its blocks; NaN without readings.</param>
/// <param name="StandardDeviation">Spread along the web: standard deviation of the means of its blocks; NaN with fewer than 2 blocks.</param>
/// <param name="Lower">Lower end of the interval of the mean; NaN with fewer than 2 blocks.</param>
/// <param name="Upper">Upper end.</param>
public sealed record ProfileLane(int Lane, double MiddleMm, long Count, double Mean, double StandardDeviation, double Lower, double Upper);
