namespace ClearView.Quality.ControlCharts;

/// <summary>The time over which limits were taken, by time of measurement.</summary>
/// <param name="From">First point.</param>
/// <param name="To">Last point, included.</param>
public sealed record BaselineSpan(DateTimeOffset From, DateTimeOffset To);
