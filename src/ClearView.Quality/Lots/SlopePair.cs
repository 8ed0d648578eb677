namespace ClearView.Quality.Lots;

/// <summary>The slopes of two lots side by side.</summary>
/// <param name="First">Name of the first lot.</param>
/// <param name="Second">Name of the second lot.</param>
/// <param name="DifferencePerH">First slope less second, per hour.</param>
/// <param name="Test">By the studentised range, from the residual variance of all lots together, adjusted for all pairs.</param>
public sealed record SlopePair(string First, string Second, double DifferencePerH, RangeTest Test);
