namespace ClearView.Quality.Specifications;

/// <summary>How a measured value is turned into a verdict (JCGM 106, 8).</summary>
public sealed record DecisionRule
{
    private DecisionRule(double? guardBandFactor) => GuardBandFactor = guardBandFactor;

    /// <summary>Simple acceptance (JCGM 106, 8.2): a value within its limits is accepted, whatever its uncertainty.</summary>
    public static DecisionRule SimpleAcceptance { get; } = new((double?)null);

    /// <summary>Guard band of one expanded uncertainty: g = U.</summary>
    public static DecisionRule GuardedByExpandedUncertainty { get; } = new(1);

    /// <summary>r in g = r·U; <see langword="null"/> for simple acceptance.</summary>
    public double? GuardBandFactor { get; }

    /// <summary>Guard band g = r·U on both sides of each limit (JCGM 106, 8.3; ISO 14253-1).</summary>
    /// <param name="factor">r, above 0, 10 at most.</param>
    /// <exception cref="ArgumentOutOfRangeException">r is outside its range.</exception>
    public static DecisionRule Guarded(double factor) =>
        factor is > 0 and <= 10
            ? new DecisionRule(factor)
            : throw new ArgumentOutOfRangeException(nameof(factor), factor, "expected a multiple of the expanded uncertainty above 0, 10 at most.");

    /// <summary>The rule in words.</summary>
    public override string ToString() =>
        GuardBandFactor is { } r ? FormattableString.Invariant($"guard band of {r:0.###} times the expanded uncertainty") : "simple acceptance";
}
