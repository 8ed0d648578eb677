using System.Collections.Immutable;
using System.Runtime.InteropServices;

using ClearView.Quality.Descriptive;

namespace ClearView.Quality.ControlCharts;

/// <summary>A chart over time, in phases, that takes points in any order and keeps them by time of measurement.</summary>
/// <remarks>
/// A late point is put in its place and the chart is drawn again from there; points of equal time keep the order in which they
/// came. Each phase begins afresh: runs and sums do not reach across. Not safe for use by several threads at once.
/// </remarks>
public sealed class ControlSeries
{
    // A late point goes back to the checkpoint before it: at most this many points more than needed.
    private const int CheckpointEvery = 256;

    private readonly ImmutableArray<ControlPhase> _phases;
    private readonly RunRules _rules;
    private readonly List<SeriesPoint> _points = [];
    private readonly List<ControlSignals> _signals = [];
    private readonly List<(int Phase, StateOfPoints State)> _checkpoints = [];
    private ControlState? _state;
    private int _phase = -1;

    /// <summary>A series without points.</summary>
    /// <param name="phases">One phase or more; points before the first are taken into it.</param>
    /// <param name="rules">The rules that raise signals.</param>
    /// <exception cref="ArgumentException">There is no phase, or two begin at the same time.</exception>
    public ControlSeries(ImmutableArray<ControlPhase> phases, RunRules rules)
    {
        ArgumentNullException.ThrowIfNull(rules);
        rules.Check();
        if (phases.IsDefaultOrEmpty || phases.Select(phase => phase.From).Distinct().Count() != phases.Length)
        {
            throw new ArgumentException("A chart needs one phase or more, each with a beginning of its own.", nameof(phases));
        }

        _phases = [.. phases.OrderBy(phase => phase.From)];
        _rules = rules;
    }

    /// <summary>The phases, in order of time.</summary>
    public ImmutableArray<ControlPhase> Phases => _phases;

    /// <summary>Number of points.</summary>
    public int Count => _points.Count;

    /// <summary>Signals of each point, in order of time; valid until the next point is added.</summary>
    public ReadOnlySpan<ControlSignals> Signals => CollectionsMarshal.AsSpan(_signals);

    /// <summary>Points in order of time; valid until the next point is added.</summary>
    public ReadOnlySpan<SeriesPoint> Points => CollectionsMarshal.AsSpan(_points);

    /// <summary>Takes one point, in time or late.</summary>
    /// <param name="point">The point.</param>
    /// <exception cref="ArgumentException">Its mean is not finite, or its size does not go with the chart.</exception>
    public SeriesRevision Add(SeriesPoint point)
    {
        Finite.Check(point.Subgroup.Mean, nameof(point));
        if (_points.Count == 0 || _points[^1].MeasuredAt <= point.MeasuredAt)
        {
            ControlPoint drawn = Draw(point, _points.Count);
            _points.Add(point);
            _signals.Add(drawn.Signals);
            return new SeriesRevision(_points.Count - 1, drawn, null, [], []);
        }

        return Insert(point);
    }

    /// <summary>Every point as it is drawn, in order of time.</summary>
    public IEnumerable<ControlPoint> Draw()
    {
        int phase = -1;
        ControlState? state = null;
        foreach (SeriesPoint point in _points)
        {
            int now = PhaseOf(point.MeasuredAt, Math.Max(phase, 0));
            if (state is null || now != phase)
            {
                state = new ControlState(_phases[now].Limits, _rules);
                phase = now;
            }

            yield return state.Add(point.Subgroup);
        }
    }

    private SeriesRevision Insert(SeriesPoint point)
    {
        int position = UpperBound(point.MeasuredAt);
        // Checked against its phase before anything is changed.
        new ControlState(_phases[PhaseOf(point.MeasuredAt, 0)].Limits, _rules).Add(point.Subgroup);
        int checkpoint = position / CheckpointEvery;
        (int Phase, StateOfPoints State) start = _checkpoints[checkpoint];
        _checkpoints.RemoveRange(checkpoint, _checkpoints.Count - checkpoint);
        _points.Insert(position, point);
        _signals.Insert(position, ControlSignals.None);
        _phase = start.Phase;
        _state = _phase < 0 ? null : new ControlState(_phases[_phase].Limits, _rules) { Checkpoint = start.State };
        ImmutableArray<int>.Builder appeared = ImmutableArray.CreateBuilder<int>();
        ImmutableArray<int>.Builder disappeared = ImmutableArray.CreateBuilder<int>();
        ControlPoint own = default;
        for (int i = checkpoint * CheckpointEvery; i < _points.Count; i++)
        {
            ControlPoint drawn = Draw(_points[i], i);
            if (i == position)
            {
                own = drawn;
            }
            else if (drawn.Signals != _signals[i])
            {
                if ((drawn.Signals & ~_signals[i]) != 0)
                {
                    appeared.Add(i);
                }

                if ((_signals[i] & ~drawn.Signals) != 0)
                {
                    disappeared.Add(i);
                }
            }

            _signals[i] = drawn.Signals;
        }

        return new SeriesRevision(position, own, point.MeasuredAt, appeared.ToImmutable(), disappeared.ToImmutable());
    }

    private ControlPoint Draw(SeriesPoint point, int position)
    {
        if (position % CheckpointEvery == 0 && _checkpoints.Count == position / CheckpointEvery)
        {
            _checkpoints.Add((_phase, _state?.Checkpoint ?? default));
        }

        int phase = PhaseOf(point.MeasuredAt, Math.Max(_phase, 0));
        if (_state is null || phase != _phase)
        {
            _state = new ControlState(_phases[phase].Limits, _rules);
            _phase = phase;
        }

        return _state.Add(point.Subgroup);
    }

    private int PhaseOf(DateTimeOffset at, int from)
    {
        int phase = from;
        while (phase + 1 < _phases.Length && _phases[phase + 1].From <= at)
        {
            phase++;
        }

        return phase;
    }

    private int UpperBound(DateTimeOffset at)
    {
        int low = 0;
        int high = _points.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = _points[middle].MeasuredAt <= at ? (middle + 1, high) : (low, middle);
        }

        return low;
    }
}
