using ClearView.Quality.ControlCharts;

namespace ClearView.Quality.Capability;

/// <summary>Whether the readings come from a stable process, by their own control chart.</summary>
/// <param name="BeyondLimits">Number of points beyond the 3σ limits.</param>
/// <param name="Runs">Number of runs of nine points or more on one side.</param>
/// <param name="SpreadBeyondLimits">Number of subgroups whose range lies beyond its limits; 0 for single readings.</param>
/// <param name="AllowedBeyondLimits">Number of points beyond the limits up to which the process counts as stable.</param>
/// <param name="AllowedRuns">Number of runs up to which it does.</param>
/// <remarks>
/// Up to 200 points any signal tells against stability (common practice, no source). A longer series raises signals by chance:
/// then as many are allowed as the expected number and three times its square root, with 0.0027 per point beyond the limits and
/// 1/512 per point for the beginning of a run of nine.
/// </remarks>
public sealed record StabilityFinding(long BeyondLimits, long Runs, long SpreadBeyondLimits, long AllowedBeyondLimits, long AllowedRuns)
{
    private const int AnySignalUpTo = 200;

    /// <summary>Whether the process counts as stable.</summary>
    public bool IsStable => BeyondLimits <= AllowedBeyondLimits && Runs <= AllowedRuns && SpreadBeyondLimits <= AllowedBeyondLimits;

    internal static StabilityFinding Of(ControlLimits limits, ReadOnlySpan<double> readings, int subgroupSize)
    {
        ControlState state = new(limits, RunRules.All);
        long beyond = 0;
        long runs = 0;
        long spread = 0;
        bool within = false;
        for (int i = 0; i + subgroupSize <= readings.Length; i += subgroupSize)
        {
            ControlPoint point = subgroupSize == 1 ? state.Add(readings[i]) : state.Add(Subgroup.Of(readings.Slice(i, subgroupSize)));
            beyond += Raises(point, ControlSignals.BeyondLimits) ? 1 : 0;
            bool run = Raises(point, ControlSignals.RunOnOneSide);
            runs += run && !within ? 1 : 0;
            within = run;
            // The moving range of single readings says little beyond their own chart, and signals twice for one reading.
            spread += subgroupSize > 1 && Raises(point, ControlSignals.SpreadBeyondLimits) ? 1 : 0;
        }

        return new StabilityFinding(beyond, runs, spread, Allowed(state.Count, 0.0027), Allowed(state.Count, 1.0 / 512));
    }

    private static bool Raises(in ControlPoint point, ControlSignals signal) => (point.Signals & signal) != 0;

    private static long Allowed(long points, double rate) =>
        points <= AnySignalUpTo ? 0 : (long)Math.Floor((points * rate) + (3 * Math.Sqrt(points * rate)));
}
