namespace ClearView.Quality.ControlCharts;

/// <summary>What a point raises: none, one or several patterns that a stable process rarely shows.</summary>
/// <remarks>
/// The first eight are the pattern tests of ISO 8258 and ISO 7870-2 (from memory), in zones of one standard deviation of the
/// plotted points. A signal belongs to the point that completes the pattern and to each further point that continues it.
/// </remarks>
[Flags]
public enum ControlSignals
{
    /// <summary>Nothing.</summary>
    None = 0,

    /// <summary>The point lies beyond a control limit (3σ).</summary>
    BeyondLimits = 1 << 0,

    /// <summary>A run of nine points (or as set) on one side of the centre line.</summary>
    RunOnOneSide = 1 << 1,

    /// <summary>Six points (or as set) in a row, each above, or each below, the one before.</summary>
    Trend = 1 << 2,

    /// <summary>Fourteen points in a row that go up and down in turn.</summary>
    Alternation = 1 << 3,

    /// <summary>Two of three points in a row beyond 2σ on one side, the newest among them.</summary>
    TwoOfThreeNearLimit = 1 << 4,

    /// <summary>Four of five points in a row beyond 1σ on one side, the newest among them.</summary>
    FourOfFiveOffCentre = 1 << 5,

    /// <summary>Fifteen points in a row within 1σ of the centre line.</summary>
    HuggingCentre = 1 << 6,

    /// <summary>Eight points in a row beyond 1σ, on both sides.</summary>
    AvoidingCentre = 1 << 7,

    /// <summary>The moving range, range or standard deviation lies beyond its limit.</summary>
    SpreadBeyondLimits = 1 << 8,

    /// <summary>The exponentially weighted moving average lies beyond its limit.</summary>
    EwmaBeyondLimits = 1 << 9,

    /// <summary>The cumulative sum above the target exceeds the decision interval.</summary>
    SumAboveTarget = 1 << 10,

    /// <summary>The cumulative sum below the target exceeds the decision interval.</summary>
    SumBelowTarget = 1 << 11,
}
