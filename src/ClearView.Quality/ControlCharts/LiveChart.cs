using System.Collections.Immutable;
using System.Runtime.InteropServices;

using ClearView.Quality.Series;

namespace ClearView.Quality.ControlCharts;

/// <summary>A chart for live use: says of each reading, in time or late, at once what it raises.</summary>
/// <remarks>
/// Keeps the newest readings, 1024 at most, and a <see cref="ChartFeed"/> at every 64th of them. Readings are ordered by time of
/// measurement, then by the order of recording. The newest reading costs constant time; a late one among those kept is put in
/// its place and the chart is fed again from there, so that it is always the one of all readings in order. An older one needs the
/// chart to be built again. Not safe for use by several threads at once.
/// </remarks>
/// <param name="definition">What the chart is.</param>
public sealed class LiveChart(ChartDefinition definition)
{
    /// <summary>Most readings that are kept.</summary>
    public const int MostKept = 1024;

    private const int CheckpointEvery = 64;

    // Each has taken all readings before the one at its place: the first all before those kept.
    private readonly List<ChartFeed> _checkpoints = [];

    // Signals stand beside the reading that completed their point, which stays the same reading where others come in between.
    private readonly List<SeriesReading> _kept = new(MostKept + 1);
    private readonly List<ControlSignals> _raised = new(MostKept + 1);
    private ChartFeed _head = new(definition);
    private SeriesReading? _lastDropped;

    /// <summary>What the chart is.</summary>
    public ChartDefinition Definition { get; } = definition;

    /// <summary>Readings taken so far.</summary>
    public long Readings => _head.Readings;

    /// <summary>Signals of the points that each kept reading completed, in order; valid until the next reading is added.</summary>
    internal ReadOnlySpan<ControlSignals> Raised => CollectionsMarshal.AsSpan(_raised);

    /// <summary>Takes one reading.</summary>
    /// <param name="reading">The reading.</param>
    /// <exception cref="ArgumentException">The value is not finite. Nothing is changed.</exception>
    public LiveAnswer Add(in SeriesReading reading)
    {
        if (_kept.Count == 0 || IsBefore(_kept[^1], reading))
        {
            return Append(reading, out FedPoint point) && point.Point.Signals != ControlSignals.None
                ? new LiveAnswer(LivePlacement.Newest, false, [new LiveSignal(point, point.Point.Signals)])
                : new LiveAnswer(LivePlacement.Newest, false, []);
        }

        if (_lastDropped is { } last && !IsBefore(last, reading))
        {
            return new LiveAnswer(LivePlacement.NeedsRebuild, true, []);
        }

        Descriptive.Finite.Check(reading.Value, nameof(reading));
        int place = PlaceOf(reading);
        bool late = IsLate(reading, place);
        _kept.Insert(place, reading);
        _raised.Insert(place, ControlSignals.None);
        ImmutableArray<LiveSignal> signals = FeedAgain(place, tellLater: true);
        Shorten();
        return new LiveAnswer(LivePlacement.Inserted, late, signals);
    }

    /// <summary>Tells of a reading that the chart holds already what the point that it belongs to raises.</summary>
    /// <param name="measuredAtTicks">Its time of measurement.</param>
    /// <param name="recordedOrder">Its place in the order of recording.</param>
    /// <returns>Without signals where the reading is older than those kept, or its point is not complete.</returns>
    public LiveAnswer Recall(long measuredAtTicks, long recordedOrder)
    {
        SeriesReading reading = new(measuredAtTicks, recordedOrder, 0, "", double.NaN, double.NaN);
        int after = PlaceOf(reading);
        bool held = after > 0 && _kept[after - 1].MeasuredAtTicks == measuredAtTicks && _kept[after - 1].RecordedOrder == recordedOrder;
        return held
            ? new LiveAnswer(
                after == _kept.Count ? LivePlacement.Newest : LivePlacement.Inserted,
                IsLate(reading, after),
                FeedAgain(after - 1, tellLater: false))
            : new LiveAnswer(LivePlacement.NeedsRebuild, true, []);
    }

    private static bool IsBefore(in SeriesReading one, in SeriesReading other) =>
        one.MeasuredAtTicks < other.MeasuredAtTicks
        || (one.MeasuredAtTicks == other.MeasuredAtTicks && one.RecordedOrder < other.RecordedOrder);

    private bool Append(in SeriesReading reading, out FedPoint point)
    {
        Mark(_kept.Count);
        bool complete = _head.Add(reading, out point);
        _kept.Add(reading);
        _raised.Add(complete ? point.Point.Signals : ControlSignals.None);
        Shorten();
        return complete;
    }

    private void Mark(int place)
    {
        if (place == _checkpoints.Count * CheckpointEvery)
        {
            _checkpoints.Add(_head.Copy());
        }
    }

    // By halves, so that a reading costs constant time on the average.
    private void Shorten()
    {
        if (_kept.Count <= MostKept)
        {
            return;
        }

        const int half = MostKept / 2;
        _lastDropped = _kept[half - 1];
        _checkpoints.RemoveRange(0, half / CheckpointEvery);
        _kept.RemoveRange(0, half);
        _raised.RemoveRange(0, half);
    }

    private ImmutableArray<LiveSignal> FeedAgain(int place, bool tellLater)
    {
        ImmutableArray<LiveSignal>.Builder told = ImmutableArray.CreateBuilder<LiveSignal>();
        ControlSignals toldPatterns = ControlSignals.None;
        long own = _checkpoints[0].Readings + place;
        int start = place / CheckpointEvery;
        _head = _checkpoints[start].Copy();
        _checkpoints.RemoveRange(start + 1, _checkpoints.Count - start - 1);
        for (int i = start * CheckpointEvery; i < _kept.Count; i++)
        {
            Mark(i);
            ControlSignals now = _head.Add(_kept[i], out FedPoint point) ? point.Point.Signals : ControlSignals.None;
            ControlSignals tell = point.Holds(own)
                ? now
                : now & ~_raised[i] & ~toldPatterns;
            if (i >= place && tell != ControlSignals.None && (tellLater || point.Holds(own)))
            {
                told.Add(new LiveSignal(point, tell));
                toldPatterns |= tell;
            }

            _raised[i] = now;
        }

        return told.ToImmutable();
    }

    private bool IsLate(in SeriesReading reading, int placeAfter)
    {
        foreach (SeriesReading later in CollectionsMarshal.AsSpan(_kept)[placeAfter..])
        {
            if (later.RecordedOrder < reading.RecordedOrder)
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>The place behind all kept readings that are not after this one.</summary>
    private int PlaceOf(in SeriesReading reading)
    {
        int low = 0;
        int high = _kept.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = IsBefore(reading, _kept[middle]) ? (low, middle) : (middle + 1, high);
        }

        return low;
    }
}
