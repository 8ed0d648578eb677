namespace ClearView.Quality.Rolls;

/// <summary>How a roll is looked at.</summary>
public sealed record RollOptions
{
    /// <summary>Confidence level of intervals, above 0, below 1.</summary>
    public double ConfidenceLevel { get; init; } = 0.95;

    /// <summary>Level of the streak test for all lanes of the roll together, above 0, below 1.</summary>
    public double StreakLevel { get; init; } = 0.01;

    /// <summary>Smallest deviation of a lane that matters, 0 or more, in the measurand's unit.</summary>
    public double LeastStreakDeviation { get; init; }

    internal void Check()
    {
        if (!(ConfidenceLevel is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(ConfidenceLevel), ConfidenceLevel, "expected a level above 0 and below 1.");
        }

        if (!(StreakLevel is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(StreakLevel), StreakLevel, "expected a level above 0 and below 1.");
        }

        if (!(LeastStreakDeviation is >= 0 and < double.PositiveInfinity))
        {
            throw new ArgumentOutOfRangeException(nameof(LeastStreakDeviation), LeastStreakDeviation, "expected 0 or more.");
        }
    }
}
