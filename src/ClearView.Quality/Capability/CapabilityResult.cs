using ClearView.Quality.ControlCharts;

namespace ClearView.Quality.Capability;

/// <summary>A capability, or why there is none.</summary>
/// <param name="Count">Number of readings.</param>
/// <param name="Limits">The limits.</param>
public sealed record CapabilityResult(int Count, CapabilityLimits Limits)
{
    /// <summary>Why there are no indices; <see langword="null"/> where there are.</summary>
    public CapabilityRefusal? Refusal { get; init; }

    /// <summary>Mean; NaN without readings.</summary>
    public double Mean { get; init; } = double.NaN;

    /// <summary>Standard deviation of all readings with n − 1; NaN for fewer than 2.</summary>
    public double OverallStandardDeviation { get; init; } = double.NaN;

    /// <summary>Standard deviation within subgroups, or from the moving range; NaN where it could not be taken.</summary>
    public double WithinStandardDeviation { get; init; } = double.NaN;

    /// <summary>Degrees of freedom of the standard deviation within.</summary>
    public double WithinDegreesOfFreedom { get; init; } = double.NaN;

    /// <summary>The control limits that stability was checked against; of the transformed readings where the model is Box-Cox.</summary>
    public ControlLimits? ControlLimits { get; init; }

    /// <summary>Whether the process is stable.</summary>
    public StabilityFinding? Stability { get; init; }

    /// <summary>The normality test; <see langword="null"/> with too few readings.</summary>
    public AndersonDarling? Normality { get; init; }

    /// <summary>The model that the indices rest on.</summary>
    public CapabilityModel Model { get; init; }

    /// <summary>The transformation where the model is Box-Cox.</summary>
    public BoxCox? Transformation { get; init; }

    /// <summary>The percentiles where the model is not normal, in the unit of the readings.</summary>
    public Percentiles? Percentiles { get; init; }

    /// <summary>Mean of the normal model; of the transformed readings where it is Box-Cox; <see langword="null"/> for no such model.</summary>
    public double? ModelMean { get; init; }

    /// <summary>Standard deviation of the normal model; of the transformed readings where it is Box-Cox.</summary>
    public double? ModelStandardDeviation { get; init; }

    /// <summary>Cp: tolerance over 6σ within; only with both limits and the normal model.</summary>
    public CapabilityIndex? Cp { get; init; }

    /// <summary>Cpk: distance of the mean to the nearest limit over 3σ within; only with the normal model.</summary>
    public CapabilityIndex? Cpk { get; init; }

    /// <summary>Pp: tolerance over the spread of all readings; only with both limits.</summary>
    public CapabilityIndex? Pp { get; init; }

    /// <summary>Ppk: distance to the nearest limit over half the spread of all readings on that side.</summary>
    public CapabilityIndex? Ppk { get; init; }

    /// <summary>Cpm: tolerance over 6√(s² + (mean − target)²); only with both limits, a target and the normal model.</summary>
    public CapabilityIndex? Cpm { get; init; }

    /// <summary>Readings expected beyond the limits by the model, per million, with the spread of all readings.</summary>
    public double? ExpectedPpm { get; init; }

    /// <summary>The same with the spread within subgroups; only with the normal model.</summary>
    public double? ExpectedWithinPpm { get; init; }

    /// <summary>Readings found beyond the limits, per million.</summary>
    public double ObservedPpm { get; init; }

    /// <summary>What else the reader should know, in words; empty where there is nothing.</summary>
    public System.Collections.Immutable.ImmutableArray<string> Remarks { get; init; } = [];
}
