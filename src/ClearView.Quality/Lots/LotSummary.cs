using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Lots;

/// <summary>One row of the table of lots.</summary>
/// <param name="Name">Name of the lot.</param>
/// <param name="Statistics">Its specimens, with intervals.</param>
/// <param name="Outlier">The specimen that Grubbs' test finds too far, still included in everything; <see langword="null"/> where there is none.</param>
public sealed record LotSummary(string Name, DescriptiveStatistics Statistics, Outlier? Outlier);
