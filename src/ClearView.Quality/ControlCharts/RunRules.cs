namespace ClearView.Quality.ControlCharts;

/// <summary>Which patterns raise a signal.</summary>
/// <remarks>Each further rule finds more and also raises more false signals; limits alone give one in 370 points of a stable, normal process.</remarks>
public sealed record RunRules
{
    private const ControlSignals Own =
        ControlSignals.SpreadBeyondLimits | ControlSignals.EwmaBeyondLimits | ControlSignals.SumAboveTarget | ControlSignals.SumBelowTarget;

    /// <summary>All eight patterns, with nine on one side and six in a trend.</summary>
    public static RunRules All { get; } = new()
    {
        Patterns = ControlSignals.BeyondLimits | ControlSignals.RunOnOneSide | ControlSignals.Trend | ControlSignals.Alternation
            | ControlSignals.TwoOfThreeNearLimit | ControlSignals.FourOfFiveOffCentre | ControlSignals.HuggingCentre | ControlSignals.AvoidingCentre | Own,
    };

    /// <summary>Beyond the limits, seven on one side, seven in a trend: the tests of ISO 7870-2 (from memory).</summary>
    public static RunRules Iso7870Part2 { get; } = new()
    {
        Patterns = ControlSignals.BeyondLimits | ControlSignals.RunOnOneSide | ControlSignals.Trend | Own,
        RunLength = 7,
        TrendLength = 7,
    };

    /// <summary>Limits only.</summary>
    public static RunRules LimitsOnly { get; } = new() { Patterns = ControlSignals.BeyondLimits | Own };

    /// <summary>The patterns that are switched on; those that a chart cannot raise are of no effect there.</summary>
    public ControlSignals Patterns { get; init; }

    /// <summary>Points of a run on one side, 5-15.</summary>
    public int RunLength { get; init; } = 9;

    /// <summary>Points of a trend, 5-15.</summary>
    public int TrendLength { get; init; } = 6;

    internal void Check()
    {
        if (RunLength is < 5 or > 15)
        {
            throw new ArgumentOutOfRangeException(nameof(RunLength), RunLength, "expected 5 to 15 points.");
        }

        if (TrendLength is < 5 or > 15)
        {
            throw new ArgumentOutOfRangeException(nameof(TrendLength), TrendLength, "expected 5 to 15 points.");
        }
    }
}
