using System.Collections.Immutable;

namespace ClearView.Quality.Rolls;

/// <summary>What the readings of a roll say.</summary>
/// <param name="Grid">The division.</param>
/// <param name="Cells">The roll map: every cell, block by block, lane by lane; empty cells included.</param>
/// <param name="CrossProfile">The profile across (CD), one entry per lane.</param>
/// <param name="Trend">The trend along (MD); <see langword="null"/> with readings in fewer than 3 blocks.</param>
/// <param name="Streaks">The streak test of every lane; empty where it cannot be made.</param>
/// <param name="Variance">Components of variance; <see langword="null"/> where they cannot be told apart.</param>
/// <param name="Summary">The roll in a few figures.</param>
/// <param name="Verdict">The verdict; <see langword="null"/> without limits.</param>
public sealed record RollReport(
    RollGrid Grid,
    ImmutableArray<RollCell> Cells,
    ImmutableArray<ProfileLane> CrossProfile,
    AlongTrend? Trend,
    ImmutableArray<StreakLane> Streaks,
    RollVariance? Variance,
    RollSummary Summary,
    RollVerdict? Verdict);
