namespace ClearView.Quality.ControlCharts;

/// <summary>A subgroup that is complete, with where it came from.</summary>
/// <param name="Subgroup">What a chart needs of it.</param>
/// <param name="FirstReading">Place of its first reading among all readings that were taken, from 0.</param>
/// <param name="MeasuredAtTicks">Time of measurement of its last reading, UTC, in units of 100 ns since 0001-01-01.</param>
/// <param name="Label">Its label; "" where it was not formed by label.</param>
public readonly record struct FormedSubgroup(Subgroup Subgroup, long FirstReading, long MeasuredAtTicks, string Label);
