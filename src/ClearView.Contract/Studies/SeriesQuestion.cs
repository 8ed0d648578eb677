using ClearView.Optics.Evaluations;
using ClearView.Quality.Series;

namespace ClearView.Contract.Studies;

/// <summary>A request for a study of one series, checked.</summary>
/// <param name="Measurand">What was measured.</param>
/// <param name="Given">The readings that the caller brought along; <see langword="null"/> where stored ones are asked for.</param>
public sealed record SeriesQuestion(Measurand Measurand, SeriesColumns? Given);
