namespace ClearView.Quality.ControlCharts;

/// <summary>A stretch of a chart with limits of its own, up to the next phase.</summary>
/// <param name="Name">What began, for example "new die".</param>
/// <param name="From">Time of measurement from which it holds.</param>
/// <param name="Limits">Its limits.</param>
public sealed record ControlPhase(string Name, DateTimeOffset From, ControlLimits Limits);
