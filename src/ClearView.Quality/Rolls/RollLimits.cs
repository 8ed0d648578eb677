namespace ClearView.Quality.Rolls;

/// <summary>What the readings of a roll are held against.</summary>
public sealed record RollLimits
{
    /// <summary>Limits of a roll.</summary>
    /// <param name="lower">Lower limit; <see langword="null"/> for none.</param>
    /// <param name="upper">Upper limit; <see langword="null"/> for none.</param>
    /// <param name="largestShareOutside">Share of readings that may lie beyond a limit, 0-1.</param>
    /// <exception cref="ArgumentException">There is no limit, one is not finite, the lower is not below the upper, or the share is outside its range.</exception>
    public RollLimits(double? lower, double? upper, double largestShareOutside = 0)
    {
        if ((lower is null && upper is null) || !double.IsFinite(lower ?? 0) || !double.IsFinite(upper ?? 0))
        {
            throw new ArgumentException("A roll is held against a finite lower or upper limit.", nameof(lower));
        }

        if (lower >= upper)
        {
            throw new ArgumentException(FormattableString.Invariant($"The lower limit was {lower}; expected below the upper limit {upper}."), nameof(lower));
        }

        if (!(largestShareOutside is >= 0 and <= 1))
        {
            throw new ArgumentException(FormattableString.Invariant($"The share was {largestShareOutside}; expected 0 to 1."), nameof(largestShareOutside));
        }

        Lower = lower;
        Upper = upper;
        LargestShareOutside = largestShareOutside;
    }

    /// <summary>Lower limit.</summary>
    public double? Lower { get; }

    /// <summary>Upper limit.</summary>
    public double? Upper { get; }

    /// <summary>Share of readings that may lie beyond a limit, 0-1.</summary>
    public double LargestShareOutside { get; }
}
