namespace ClearView.Quality.Lots;

/// <summary>The specimen of a lot that lies farthest from its mean, where Grubbs' test finds it too far. It is flagged, never dropped.</summary>
/// <param name="Position">Place of the specimen in the lot, counted from 0.</param>
/// <param name="Value">Its value.</param>
/// <param name="G">Distance from the mean in standard deviations.</param>
/// <param name="PValue">Two-sided, by Bonferroni's bound on the t distribution, at most 1.</param>
public sealed record Outlier(int Position, double Value, double G, double PValue);
