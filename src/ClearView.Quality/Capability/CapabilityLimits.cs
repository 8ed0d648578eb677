namespace ClearView.Quality.Capability;

/// <summary>The limits that a process is held against; one of the two may be missing.</summary>
public sealed record CapabilityLimits
{
    /// <summary>Limits of a process.</summary>
    /// <param name="lower">Lower limit; <see langword="null"/> for none.</param>
    /// <param name="upper">Upper limit; <see langword="null"/> for none.</param>
    /// <param name="target">Target; <see langword="null"/> for none.</param>
    /// <exception cref="ArgumentException">There is no limit, one is not finite, or the lower is not below the upper.</exception>
    public CapabilityLimits(double? lower, double? upper, double? target = null)
    {
        if (lower is null && upper is null)
        {
            throw new ArgumentException("A capability needs a lower or an upper limit.", nameof(lower));
        }

        if (!double.IsFinite(lower ?? 0) || !double.IsFinite(upper ?? 0) || !double.IsFinite(target ?? 0))
        {
            throw new ArgumentException("Limits and target are finite numbers.", nameof(lower));
        }

        if (lower >= upper)
        {
            throw new ArgumentException(FormattableString.Invariant($"The lower limit was {lower}; expected below the upper limit {upper}."), nameof(lower));
        }

        Lower = lower;
        Upper = upper;
        Target = target;
    }

    /// <summary>Lower limit.</summary>
    public double? Lower { get; }

    /// <summary>Upper limit.</summary>
    public double? Upper { get; }

    /// <summary>Target.</summary>
    public double? Target { get; }
}
