using System.Collections.Immutable;

namespace ClearView.Quality.ControlCharts;

/// <summary>What a point did to a chart.</summary>
/// <param name="Position">Where the point stands by time of measurement, from 0.</param>
/// <param name="Point">The point, with its signals.</param>
/// <param name="RevisedFrom">Time of measurement from which the chart was revised; <see langword="null"/> where it was not.</param>
/// <param name="Appeared">Positions of later points that raise signals which they did not raise before; empty where nothing was revised.</param>
/// <param name="Disappeared">Positions of later points that no longer raise a signal which they raised before.</param>
public sealed record SeriesRevision(
    int Position, ControlPoint Point, DateTimeOffset? RevisedFrom, ImmutableArray<int> Appeared, ImmutableArray<int> Disappeared)
{
    /// <summary>Whether the point came late, so that later points were drawn before it.</summary>
    public bool Revised => RevisedFrom is not null;
}
