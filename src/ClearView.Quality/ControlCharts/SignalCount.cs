using System.Collections.Immutable;

namespace ClearView.Quality.ControlCharts;

/// <summary>Which points of a long series raise signals, without keeping the others.</summary>
/// <param name="Points">Number of points.</param>
/// <param name="PointsWithSignals">Number of points that raise one signal or more.</param>
/// <param name="First">The first of them, up to the number that was asked for.</param>
public sealed record SignalCount(long Points, long PointsWithSignals, ImmutableArray<ControlPoint> First)
{
    /// <summary>Runs a chart of single readings over a series.</summary>
    /// <param name="limits">Its limits.</param>
    /// <param name="rules">The rules that raise signals.</param>
    /// <param name="readings">The readings in the order of measurement, finite.</param>
    /// <param name="keep">How many points with signals are kept.</param>
    /// <exception cref="ArgumentException">A reading is not finite.</exception>
    public static SignalCount Of(ControlLimits limits, RunRules rules, ReadOnlySpan<double> readings, int keep = 1000)
    {
        ControlState state = new(limits, rules);
        ImmutableArray<ControlPoint>.Builder first = ImmutableArray.CreateBuilder<ControlPoint>();
        long signalling = 0;
        foreach (double reading in readings)
        {
            ControlPoint point = state.Add(reading);
            if (point.Signals != ControlSignals.None)
            {
                signalling++;
                if (first.Count < keep)
                {
                    first.Add(point);
                }
            }
        }

        return new SignalCount(readings.Length, signalling, first.ToImmutable());
    }
}
