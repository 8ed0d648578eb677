namespace ClearView.Quality.Capability;

/// <summary>An index with its confidence interval.</summary>
/// <param name="Value">The estimate.</param>
/// <param name="Lower">Lower end of the two-sided interval; <see langword="null"/> where the method gives none.</param>
/// <param name="Upper">Upper end.</param>
public sealed record CapabilityIndex(double Value, double? Lower, double? Upper);
