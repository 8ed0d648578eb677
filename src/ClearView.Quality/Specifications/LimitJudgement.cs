namespace ClearView.Quality.Specifications;

/// <summary>The verdict on one limit, and what it rests on.</summary>
/// <param name="Limit">The limit.</param>
/// <param name="Verdict">The verdict.</param>
/// <param name="Reason">Why, in words, with the figures.</param>
public sealed record LimitJudgement(SpecificationLimit Limit, Verdict Verdict, string Reason)
{
    /// <summary>The value that was judged; <see langword="null"/> where there was none.</summary>
    public MeasuredQuantity? Value { get; init; }

    /// <summary>Distance to the nearest limit in the measurand's unit: above 0 within the limits, below 0 beyond one.</summary>
    public double? DistanceToLimit { get; init; }

    /// <summary>The same in expanded uncertainties U; <see langword="null"/> where U is unknown or 0.</summary>
    public double? DistanceInExpandedUncertainties { get; init; }

    /// <summary>Probability that the true value lies within the limits, 0-1 (JCGM 106, 7); <see langword="null"/> where u is unknown.</summary>
    public double? ProbabilityOfConformity { get; init; }

    /// <summary>Specific consumer's risk of accepting (JCGM 106, 9.3.2): 1 − p; <see langword="null"/> where rejected or unknown.</summary>
    public double? ConsumersRisk { get; init; }

    /// <summary>Specific producer's risk of rejecting (JCGM 106, 9.3.2): p; <see langword="null"/> where accepted or unknown.</summary>
    public double? ProducersRisk { get; init; }
}
