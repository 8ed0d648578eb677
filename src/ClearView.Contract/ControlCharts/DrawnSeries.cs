using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;

namespace ClearView.Contract.ControlCharts;

/// <summary>A series on its chart, of which a stretch is shown; gives its points in order, as often as wanted.</summary>
/// <param name="definition">The chart.</param>
/// <param name="series">The readings, from the beginning of a phase or of the series.</param>
/// <param name="shown">The stretch that is shown.</param>
internal sealed class DrawnSeries(ChartDefinition definition, SeriesColumns series, TickSpan shown)
{
    public ChartDefinition Definition { get; } = definition;

    public SeriesColumns Series { get; } = series;

    public LateReadings Late { get; } = LateReadings.Of(series);

    /// <summary>Places of the readings shown.</summary>
    public Range Shown { get; } = shown.PlacesIn(series.MeasuredAtTicks);

    /// <summary>A reader at the first point shown.</summary>
    public Reader Read() => new(this);

    /// <summary>Goes through the points shown. Readings before the stretch are taken, so that runs and sums begin with their phase.</summary>
    public sealed class Reader
    {
        private readonly DrawnSeries _drawn;
        private readonly ChartFeed _feed;
        private readonly int _end;
        private readonly long _leftOutBefore;
        private int _next;

        public Reader(DrawnSeries drawn)
        {
            _drawn = drawn;
            _feed = new ChartFeed(drawn.Definition);
            (int start, int length) = drawn.Shown.GetOffsetAndLength(drawn.Series.Count);
            _end = start + length;
            while (_next < start)
            {
                _feed.Add(SeriesRows.At(drawn.Series, _next++), out _);
            }

            _leftOutBefore = _feed.LeftOut;
        }

        /// <summary>Readings shown so far that no point holds.</summary>
        public long WithoutPoint => _feed.LeftOut - _leftOutBefore + _feed.Open;

        public bool Next(out FedPoint point)
        {
            while (_next < _end)
            {
                // A subgroup may have ended before the stretch and be closed in it.
                if (_feed.Add(SeriesRows.At(_drawn.Series, _next++), out point)
                    && point.MeasuredAtTicks >= _drawn.From)
                {
                    return true;
                }
            }

            point = default;
            return false;
        }
    }

    private long From { get; } = shown.From;
}
