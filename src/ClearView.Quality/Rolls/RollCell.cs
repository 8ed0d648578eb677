namespace ClearView.Quality.Rolls;

/// <summary>One cell of a roll map.</summary>
/// <param name="Lane">Lane across, from 0.</param>
/// <param name="Block">Block along, from 0.</param>
/// <param name="Count">Number of readings; 0 for an empty cell.</param>
/// <param name="Mean">Their mean; NaN for an empty cell.</param>
/// <param name="StandardDeviation">Standard deviation with n − 1; NaN for fewer than 2.</param>
public readonly record struct RollCell(int Lane, int Block, int Count, double Mean, double StandardDeviation);
