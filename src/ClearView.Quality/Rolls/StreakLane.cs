namespace ClearView.Quality.Rolls;

/// <summary>The streak test of one lane: does it differ from the rest of the web all along the roll?</summary>
/// <param name="Lane">Lane, from 0.</param>
/// <param name="MiddleMm">Its middle, mm.</param>
/// <param name="Blocks">Number of blocks in which it was compared.</param>
/// <param name="Deviation">Mean over the blocks of: mean of the lane's cell − median of the other lanes' cells.</param>
/// <param name="T">Deviation over its standard error; infinite where every block deviates alike.</param>
/// <param name="AdjustedPValue">Two-sided p-value of t with blocks − 1 degrees of freedom, times the number of lanes (Bonferroni), 1 at most.</param>
/// <param name="ShareOfBlocks">Share of the blocks that deviate to the same side as the mean, 0-1.</param>
/// <param name="IsStreak">Whether the lane is flagged.</param>
public sealed record StreakLane(
    int Lane, double MiddleMm, int Blocks, double Deviation, double T, double AdjustedPValue, double ShareOfBlocks, bool IsStreak);
