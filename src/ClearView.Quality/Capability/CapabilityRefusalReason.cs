namespace ClearView.Quality.Capability;

/// <summary>Kinds of reasons why there are no indices.</summary>
public enum CapabilityRefusalReason
{
    /// <summary>Fewer readings than an index needs.</summary>
    TooFewReadings = 1,

    /// <summary>The readings do not differ.</summary>
    NoSpread = 2,

    /// <summary>The control chart of the readings raises more signals than a stable process does.</summary>
    Unstable = 3,

    /// <summary>No model of the distribution fits, and there are too few readings for percentiles.</summary>
    NoModelFits = 4,
}
