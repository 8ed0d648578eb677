using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;
using ClearView.Records.Model;

namespace ClearView.Server.Live;

/// <summary>Builds a live chart from the stored readings, and notes what one of them raises.</summary>
/// <param name="definition">What the chart is.</param>
/// <param name="own">The reading for which it is built; it is stored already.</param>
/// <param name="complete">Place in the order of recording up to which the store held everything before it was read.</param>
internal sealed class LiveChartBuild(ChartDefinition definition, SeriesReading own, long complete)
{
    private long _place = -1;
    private bool _newest;
    private bool _late;
    private LiveSignal? _signal;

    /// <summary>The chart.</summary>
    public LiveChart Chart { get; } = new(definition);

    /// <summary>Readings taken that were stored meanwhile, or before others that are still to be committed: by their places.</summary>
    public HashSet<long> Ahead { get; } = [];

    /// <summary>What the reading raises, at the point that it belongs to or completes.</summary>
    public LiveAnswer Answer => new(
        _newest ? LivePlacement.Newest : LivePlacement.Inserted, _late, _signal is { } signal ? [signal] : []);

    /// <summary>Takes the next stored reading, in the order of measurement.</summary>
    public void Take(in SeriesRow row)
    {
        var isOwn = row.Sequence == own.RecordedOrder;
        if (isOwn)
        {
            _place = Chart.Readings;
        }

        _newest = isOwn;
        _late |= _place >= 0 && row.Sequence < own.RecordedOrder;
        if (row.Sequence > complete)
        {
            Ahead.Add(row.Sequence);
        }

        var answer = Chart.Add(new SeriesReading(row.MeasuredAtTicks, row.Sequence, row.Value, row.Label, double.NaN, double.NaN));
        if (_place >= 0 && answer.Signals is [var signal] && (isOwn || signal.Point.Holds(_place)))
        {
            _signal ??= signal;
        }
    }
}
