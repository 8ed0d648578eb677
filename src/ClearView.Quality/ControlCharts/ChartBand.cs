namespace ClearView.Quality.ControlCharts;

/// <summary>Control limits with the centre line between them, in the unit of the plotted points.</summary>
/// <param name="Lower">Lower control limit.</param>
/// <param name="Centre">Centre line.</param>
/// <param name="Upper">Upper control limit.</param>
public readonly record struct ChartBand(double Lower, double Centre, double Upper);
