namespace ClearView.Quality.Rolls;

/// <summary>A roll in a few figures.</summary>
/// <param name="Count">Number of readings on the grid.</param>
/// <param name="CountOffTheGrid">Number of readings whose place is not on the grid; nothing else here counts them.</param>
public sealed record RollSummary(long Count, long CountOffTheGrid)
{
    /// <summary>Mean of all readings; NaN without any.</summary>
    public double Mean { get; init; }

    /// <summary>Standard deviation of all readings with n − 1; NaN for fewer than 2.</summary>
    public double StandardDeviation { get; init; }

    /// <summary>The smallest reading with its place, the first of equals.</summary>
    public RollReading? Smallest { get; init; }

    /// <summary>The largest reading with its place, the first of equals.</summary>
    public RollReading? Largest { get; init; }

    /// <summary>Number of readings beyond a limit.</summary>
    public long CountOutsideLimits { get; init; }

    /// <summary>Number of cells without a reading.</summary>
    public int EmptyCells { get; init; }

    /// <summary>Share of readings beyond a limit, 0-1.</summary>
    public double ShareOutsideLimits => Count > 0 ? (double)CountOutsideLimits / Count : 0;
}
