using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Lots;

/// <summary>Hedges' g: the difference in pooled standard deviations, without the upward bias of small samples (Hedges 1981).</summary>
/// <param name="HedgesG">g.</param>
/// <param name="Interval">From the non-central t distribution, for lots of equal variance.</param>
public sealed record EffectSize(double HedgesG, Interval Interval);
