using ClearView.Quality.Descriptive;
using ClearView.Quality.Series;

namespace ClearView.Quality.ControlCharts;

/// <summary>Takes readings one at a time, in the order of measurement, and gives each subgroup as soon as it is complete.</summary>
/// <remarks>
/// Constant memory. Mean and standard deviation are carried on reading by reading (Welford 1962). A reading without a label
/// belongs to no subgroup where labels form them; it is left out and counted. Not safe for use by several threads at once.
/// </remarks>
public sealed class SubgroupFormer
{
    private readonly Subgrouping _subgrouping;
    private int _size;
    private double _mean;
    private double _square;
    private double _smallest;
    private double _largest;
    private long _first;
    private long _lastTicks;
    private string _label = "";

    /// <summary>A former without readings.</summary>
    /// <param name="subgrouping">How subgroups are formed.</param>
    public SubgroupFormer(Subgrouping subgrouping)
    {
        ArgumentNullException.ThrowIfNull(subgrouping);
        _subgrouping = subgrouping;
    }

    private SubgroupFormer(SubgroupFormer other)
    {
        _subgrouping = other._subgrouping;
        Readings = other.Readings;
        LeftOut = other.LeftOut;
        _size = other._size;
        _mean = other._mean;
        _square = other._square;
        _smallest = other._smallest;
        _largest = other._largest;
        _first = other._first;
        _lastTicks = other._lastTicks;
        _label = other._label;
    }

    /// <summary>Readings taken so far.</summary>
    public long Readings { get; private set; }

    /// <summary>Readings among them that belong to no subgroup: without a label, or in an open subgroup that was dropped.</summary>
    public long LeftOut { get; private set; }

    /// <summary>Readings in the subgroup that is still open.</summary>
    public int Open => _size;

    /// <summary>Takes one reading.</summary>
    /// <param name="reading">The reading, not before the last one.</param>
    /// <param name="formed">The subgroup that is now complete: with this reading, or by label before it.</param>
    /// <returns>Whether one is complete.</returns>
    /// <exception cref="ArgumentException">The value is not finite.</exception>
    public bool Add(in SeriesReading reading, out FormedSubgroup formed)
    {
        Finite.Check(reading.Value, nameof(reading));
        formed = default;
        if (!_subgrouping.IsByLabel)
        {
            Take(reading);
            if (_size < _subgrouping.ConsecutiveCount)
            {
                return false;
            }

            formed = Close();
            return true;
        }

        bool closed = IsClosedBy(reading);
        if (closed)
        {
            formed = Close();
        }

        if (reading.Label.Length == 0)
        {
            Readings++;
            LeftOut++;
            return closed;
        }

        _label = reading.Label;
        Take(reading);
        return closed;
    }

    /// <summary>Drops the open subgroup; its readings count as left out.</summary>
    public void DropOpen()
    {
        LeftOut += _size;
        _size = 0;
    }

    /// <summary>Whether a reading would end the open subgroup by its label, without belonging to it.</summary>
    /// <param name="reading">The reading.</param>
    internal bool IsClosedBy(in SeriesReading reading) =>
        _subgrouping.IsByLabel && _size > 0 && !string.Equals(reading.Label, _label, StringComparison.Ordinal);

    internal SubgroupFormer Copy() => new(this);

    private void Take(in SeriesReading reading)
    {
        double value = reading.Value;
        if (_size == 0)
        {
            _first = Readings;
            _size = 1;
            _mean = value;
            _square = 0;
            _smallest = value;
            _largest = value;
        }
        else
        {
            _size++;
            double before = value - _mean;
            _mean += before / _size;
            _square += before * (value - _mean);
            _smallest = Math.Min(_smallest, value);
            _largest = Math.Max(_largest, value);
        }

        _lastTicks = reading.MeasuredAtTicks;
        Readings++;
    }

    private FormedSubgroup Close()
    {
        Subgroup subgroup = new(_size, _mean, _largest - _smallest, _size > 1 ? Math.Sqrt(_square / (_size - 1)) : 0);
        _size = 0;
        return new FormedSubgroup(subgroup, _first, _lastTicks, _label);
    }
}
