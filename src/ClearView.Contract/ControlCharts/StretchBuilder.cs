using ClearView.Quality.ControlCharts;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.ControlCharts;

/// <summary>Gathers points of one phase into a stretch.</summary>
internal sealed class StretchBuilder(DrawnSeries drawn, long most)
{
    private long _points;
    private long _signalling;
    private int _phase;
    private long _from;
    private long _to;
    private double _minimum;
    private double _maximum;
    private double _sum;
    private double _lower;
    private double _upper;
    private double _centre;

    /// <summary>Takes a point.</summary>
    /// <returns>The stretch that is complete before it: it is as long as wanted, or the point begins another phase.</returns>
    public ControlChartStretch? Add(in FedPoint fed)
    {
        ControlChartStretch? complete = _points > 0 && (_points >= most || fed.Phase != _phase) ? Finish() : null;
        ControlPoint point = fed.Point;
        bool sums = drawn.Definition.Phases[fed.Phase].Limits.Kind == Quality.ControlCharts.ControlChartKind.Cusum;
        (double low, double high) = sums ? (-point.SumBelow, point.SumAbove) : (point.Plotted, point.Plotted);
        if (_points == 0)
        {
            _phase = fed.Phase;
            _from = fed.MeasuredAtTicks;
            _minimum = low;
            _maximum = high;
            _sum = 0;
            _lower = point.Limits.Lower;
            _upper = point.Limits.Upper;
            _centre = point.Limits.Centre;
            _signalling = 0;
        }

        _points++;
        _to = fed.MeasuredAtTicks;
        _minimum = Math.Min(_minimum, low);
        _maximum = Math.Max(_maximum, high);
        _sum += sums ? 0 : point.Plotted - _centre;
        _lower = Math.Min(_lower, point.Limits.Lower);
        _upper = Math.Max(_upper, point.Limits.Upper);
        _signalling += point.Signals == ControlSignals.None ? 0 : 1;
        return complete;
    }

    /// <summary>The stretch of the points so far, which it empties; <see langword="null"/> without points.</summary>
    public ControlChartStretch? Finish()
    {
        if (_points == 0)
        {
            return null;
        }

        ControlChartStretch stretch = new()
        {
            MeasuredFrom = new DateTimeOffset(_from, TimeSpan.Zero).ToTimestamp(),
            MeasuredTo = new DateTimeOffset(_to, TimeSpan.Zero).ToTimestamp(),
            PhaseCount = (uint)_phase,
            PointCount = (ulong)_points,
            Minimum = _minimum,
            Mean = _centre + (_sum / _points),
            Maximum = _maximum,
            Lower = _lower,
            Centre = _centre,
            Upper = _upper,
            SignalPointCount = (ulong)_signalling,
        };
        _points = 0;
        return stretch;
    }
}
