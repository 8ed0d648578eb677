namespace ClearView.Quality.Lots;

/// <summary>Kruskal-Wallis test on ranks.</summary>
/// <param name="H">Statistic, corrected for ties.</param>
/// <param name="DegreesOfFreedom">Lots less one.</param>
/// <param name="PValue">From chi-squared, an approximation that wants about five specimens per lot.</param>
/// <param name="TieCorrection">What H was divided by: 1 without ties.</param>
public sealed record KruskalWallisTest(double H, int DegreesOfFreedom, double PValue, double TieCorrection);
