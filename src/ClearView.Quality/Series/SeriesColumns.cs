using System.Runtime.InteropServices;

using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Series;

/// <summary>The values of a series in the order of measurement, column by column, with the parts that were asked for.</summary>
/// <remarks>Built once, then read; not safe for use by several threads while it is built.</remarks>
/// <param name="parts">The parts to keep beside the values.</param>
public sealed class SeriesColumns(SeriesParts parts)
{
    private readonly List<double> _values = [];
    private readonly List<long> _times = [];
    private readonly List<long> _order = [];
    private readonly List<string> _labels = [];
    private readonly List<double> _acrossMm = [];
    private readonly List<double> _alongM = [];

    /// <summary>The parts that are kept.</summary>
    public SeriesParts Parts { get; } = parts;

    /// <summary>Number of readings.</summary>
    public int Count => _values.Count;

    /// <summary>Values, in the measurand's unit.</summary>
    public ReadOnlySpan<double> Values => CollectionsMarshal.AsSpan(_values);

    /// <summary>Times of measurement, in units of 100 ns since 0001-01-01 UTC, ascending; empty where not kept.</summary>
    public ReadOnlySpan<long> MeasuredAtTicks => CollectionsMarshal.AsSpan(_times);

    /// <summary>Places in the order of recording; empty where not kept.</summary>
    public ReadOnlySpan<long> RecordedOrder => CollectionsMarshal.AsSpan(_order);

    /// <summary>Labels; empty where not kept.</summary>
    public ReadOnlySpan<string> Labels => CollectionsMarshal.AsSpan(_labels);

    /// <summary>Places across the web, mm, NaN where there is none; empty where not kept.</summary>
    public ReadOnlySpan<double> AcrossMm => CollectionsMarshal.AsSpan(_acrossMm);

    /// <summary>Places along the web, m, NaN where there is none; empty where not kept.</summary>
    public ReadOnlySpan<double> AlongM => CollectionsMarshal.AsSpan(_alongM);

    /// <summary>Adds the next reading.</summary>
    /// <param name="reading">The reading; where times are kept, not before the last one.</param>
    /// <exception cref="ArgumentException">The value is not finite, or the reading is out of order.</exception>
    public void Add(in SeriesReading reading)
    {
        Finite.Check(reading.Value, nameof(reading));
        if ((Parts & SeriesParts.Times) != 0)
        {
            if (_times.Count > 0 && reading.MeasuredAtTicks < _times[^1])
            {
                throw new ArgumentException("A reading was measured before the one that it follows.", nameof(reading));
            }

            _times.Add(reading.MeasuredAtTicks);
        }

        if ((Parts & SeriesParts.RecordedOrder) != 0)
        {
            _order.Add(reading.RecordedOrder);
        }

        if ((Parts & SeriesParts.Labels) != 0)
        {
            _labels.Add(reading.Label);
        }

        if ((Parts & SeriesParts.Places) != 0)
        {
            _acrossMm.Add(reading.AcrossMm);
            _alongM.Add(reading.AlongM);
        }

        _values.Add(reading.Value);
    }
}
