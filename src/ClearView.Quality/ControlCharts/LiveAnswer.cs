using System.Collections.Immutable;

namespace ClearView.Quality.ControlCharts;

/// <summary>What a reading did on a live chart.</summary>
/// <param name="Placement">Where it went.</param>
/// <param name="Revised">Whether it came late: a reading measured after it had been recorded before it.</param>
/// <param name="Signals">
/// What it raised, by time: all signals of the point that it belongs to or completes; of later points, the first where a pattern
/// appears that the point did not raise before. Empty where there is none.
/// </param>
public readonly record struct LiveAnswer(LivePlacement Placement, bool Revised, ImmutableArray<LiveSignal> Signals);
