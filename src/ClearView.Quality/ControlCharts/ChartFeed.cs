using ClearView.Quality.Descriptive;
using ClearView.Quality.Series;

namespace ClearView.Quality.ControlCharts;

/// <summary>A chart that takes readings one at a time, in the order of measurement, and gives each point as soon as it is complete.</summary>
/// <remarks>
/// Constant memory, and a copy costs no more than a few numbers: the chart drawn afterwards, the live chart and its checkpoints
/// are all this feed. Each phase begins afresh: runs and sums do not reach across, and a subgroup that is unfinished when a
/// phase begins is dropped, its readings counted as left out. A subgroup by label that the first reading of the new phase ends
/// by another label is complete and is the last point of its phase. A subgroup too large for a chart with range is left out.
/// Not safe for use by several threads at once.
/// </remarks>
public sealed class ChartFeed
{
    private readonly ChartDefinition _definition;
    private readonly SubgroupFormer _former;
    private ControlState _state;
    private int _phase;
    private long _phaseEnd;
    private long _lastTicks = long.MinValue;
    private long _tooLarge;

    /// <summary>A chart without readings.</summary>
    /// <param name="definition">What the chart is.</param>
    public ChartFeed(ChartDefinition definition)
    {
        ArgumentNullException.ThrowIfNull(definition);
        _definition = definition;
        _former = new SubgroupFormer(definition.Subgrouping);
        _state = new ControlState(definition.Phases[0].Limits, definition.Rules);
        _phaseEnd = EndOf(0);
    }

    private ChartFeed(ChartFeed other)
    {
        _definition = other._definition;
        _former = other._former.Copy();
        _state = new ControlState(other._state.Limits, _definition.Rules) { Checkpoint = other._state.Checkpoint };
        _phase = other._phase;
        _phaseEnd = other._phaseEnd;
        _lastTicks = other._lastTicks;
        _tooLarge = other._tooLarge;
    }

    /// <summary>Readings taken so far.</summary>
    public long Readings => _former.Readings;

    /// <summary>Readings among them that no point will hold: without a label, in a subgroup that a new phase cut off, or in one too large for its chart.</summary>
    public long LeftOut => _former.LeftOut + _tooLarge;

    /// <summary>Readings in the subgroup that is still open.</summary>
    public int Open => _former.Open;

    /// <summary>Takes one reading.</summary>
    /// <param name="reading">The reading, not before the last one.</param>
    /// <param name="point">The point that is now complete: with this reading, or by label before it.</param>
    /// <returns>Whether a point is complete; one reading completes one at most.</returns>
    /// <exception cref="ArgumentException">The value is not finite, or the reading was measured before the last one. Nothing is changed.</exception>
    public bool Add(in SeriesReading reading, out FedPoint point)
    {
        Finite.Check(reading.Value, nameof(reading));
        if (reading.MeasuredAtTicks < _lastTicks)
        {
            throw new ArgumentException("A reading was measured before the one that it follows.", nameof(reading));
        }

        _lastTicks = reading.MeasuredAtTicks;
        bool begins = reading.MeasuredAtTicks >= _phaseEnd;
        if (begins && !_former.IsClosedBy(reading))
        {
            _former.DropOpen();
            Begin(reading.MeasuredAtTicks);
            begins = false;
        }

        point = default;
        bool complete = _former.Add(reading, out FormedSubgroup formed) && Plot(formed, out point);
        if (begins)
        {
            Begin(reading.MeasuredAtTicks);
        }

        return complete;
    }

    /// <summary>A chart of its own that goes on from here.</summary>
    public ChartFeed Copy() => new(this);

    private bool Plot(in FormedSubgroup formed, out FedPoint point)
    {
        int size = formed.Subgroup.Size;
        if (size > ChartFactors.LargestRangeSize && _state.Limits.Kind == ControlChartKind.AveragesWithRange)
        {
            _tooLarge += size;
            point = default;
            return false;
        }

        point = new FedPoint(_state.Add(formed.Subgroup), _phase, formed.FirstReading, size, formed.MeasuredAtTicks, formed.Label);
        return true;
    }

    private void Begin(long ticks)
    {
        while (ticks >= _phaseEnd)
        {
            _phase++;
            _phaseEnd = EndOf(_phase);
        }

        _state = new ControlState(_definition.Phases[_phase].Limits, _definition.Rules);
    }

    private long EndOf(int phase) => phase + 1 < _definition.Phases.Length ? _definition.Phases[phase + 1].From.UtcTicks : long.MaxValue;
}
