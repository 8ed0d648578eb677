namespace ClearView.Plotting.Model;

/// <summary>A stretch of the horizontal axis.</summary>
/// <param name="From">Where it begins.</param>
/// <param name="To">Where it ends.</param>
/// <param name="Label">Its name.</param>
public sealed record BandModel(double From, double To, string Label);
