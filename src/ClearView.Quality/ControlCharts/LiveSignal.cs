namespace ClearView.Quality.ControlCharts;

/// <summary>What a reading raised at one point of a live chart.</summary>
/// <param name="Point">The point.</param>
/// <param name="Raised">The signals of the point that are told for the reading.</param>
public readonly record struct LiveSignal(FedPoint Point, ControlSignals Raised);
