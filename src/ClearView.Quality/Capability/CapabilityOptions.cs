namespace ClearView.Quality.Capability;

/// <summary>How a capability is computed.</summary>
public sealed record CapabilityOptions
{
    /// <summary>Confidence level of the intervals, above 0, below 1.</summary>
    public double ConfidenceLevel { get; init; } = 0.95;

    /// <summary>Model of the distribution.</summary>
    public CapabilityModel Model { get; init; } = CapabilityModel.Automatic;

    /// <summary>Level below which the p-value of the normality test speaks against a normal distribution.</summary>
    public double NormalityLevel { get; init; } = 0.05;

    /// <summary>Readings per subgroup for the within-subgroup σ, 1-25; 1 takes it from the moving range.</summary>
    public int SubgroupSize { get; init; } = 1;

    /// <summary>Whether indices are given although the process is not stable; they then describe the past and foretell nothing.</summary>
    public bool EvenIfUnstable { get; init; }

    internal void Check()
    {
        if (!(ConfidenceLevel is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(ConfidenceLevel), ConfidenceLevel, "expected a level above 0 and below 1.");
        }

        if (!(NormalityLevel is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(NormalityLevel), NormalityLevel, "expected a level above 0 and below 1.");
        }

        if (SubgroupSize is < 1 or > ControlCharts.ChartFactors.LargestRangeSize)
        {
            throw new ArgumentOutOfRangeException(nameof(SubgroupSize), SubgroupSize, "expected 1 to 25 readings.");
        }
    }
}
