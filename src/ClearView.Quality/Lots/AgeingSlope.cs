using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Lots;

/// <summary>How fast a lot changes: a straight line through its specimens over ageing time.</summary>
/// <param name="Lot">Name of the lot.</param>
/// <param name="SlopePerH">Change per hour, in the measurand's unit.</param>
/// <param name="Initial">Value of the line at time zero.</param>
/// <param name="StandardError">Of the slope, from this lot's own residuals; <see langword="null"/> for two specimens.</param>
/// <param name="DegreesOfFreedom">Specimens less two.</param>
/// <param name="Interval">Confidence interval of the slope; <see langword="null"/> for two specimens.</param>
public sealed record AgeingSlope(
    string Lot, double SlopePerH, double Initial, double? StandardError, int DegreesOfFreedom, Interval? Interval);
