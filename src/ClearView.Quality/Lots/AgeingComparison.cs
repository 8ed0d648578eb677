using System.Collections.Immutable;

namespace ClearView.Quality.Lots;

/// <summary>Change over ageing time, lot by lot, and whether the lots change alike.</summary>
/// <param name="Slopes">One line per lot, in the order of the lots.</param>
/// <param name="EqualSlopes">Analysis of covariance: lines of one slope against lines of their own (F test; Snedecor and Cochran, "Statistical Methods").</param>
/// <param name="Pairs">Each pair of slopes; empty where <paramref name="EqualSlopes"/> has no result.</param>
public sealed record AgeingComparison(ImmutableArray<AgeingSlope> Slopes, Stated<FTest> EqualSlopes, ImmutableArray<SlopePair> Pairs);
