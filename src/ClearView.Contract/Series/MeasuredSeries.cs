using ClearView.Optics.Evaluations;
using ClearView.Quality.Series;

namespace ClearView.Contract.Series;

/// <summary>A series with what was measured.</summary>
/// <param name="Measurand">The measurand; never an angle, since angles have no plain mean.</param>
/// <param name="Columns">The values in the order of measurement, with the parts that were asked for.</param>
public sealed record MeasuredSeries(Measurand Measurand, SeriesColumns Columns);
