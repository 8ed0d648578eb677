using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Rolls;

/// <summary>Takes the readings of a roll one at a time, in any order, and keeps sums per cell only.</summary>
/// <remarks>
/// One pass; memory follows the number of cells, not of readings. Sums are of deviations from the first reading, so that no
/// digits are lost to a large mean. Not safe for use by several threads at once.
/// </remarks>
public sealed class RollAccumulator
{
    private readonly CellSums[] _cells;
    private readonly double _lower;
    private readonly double _upper;
    private double _origin;
    private long _count;
    private long _outsideLimits;
    private long _offTheGrid;
    private RollReading _smallest = new(0, 0, double.PositiveInfinity);
    private RollReading _largest = new(0, 0, double.NegativeInfinity);

    /// <summary>A roll without readings.</summary>
    /// <param name="grid">The division.</param>
    /// <param name="limits">What readings are held against; <see langword="null"/> for nothing.</param>
    public RollAccumulator(RollGrid grid, RollLimits? limits)
    {
        ArgumentNullException.ThrowIfNull(grid);
        Grid = grid;
        Limits = limits;
        _cells = new CellSums[grid.Lanes * grid.Blocks];
        _lower = limits?.Lower ?? double.NegativeInfinity;
        _upper = limits?.Upper ?? double.PositiveInfinity;
    }

    /// <summary>The division.</summary>
    public RollGrid Grid { get; }

    /// <summary>What readings are held against.</summary>
    public RollLimits? Limits { get; }

    /// <summary>Takes one reading.</summary>
    /// <param name="reading">The reading. One whose place is off the grid is counted and otherwise left out.</param>
    /// <exception cref="ArgumentException">Its value is not finite.</exception>
    public void Add(in RollReading reading)
    {
        double value = reading.Value;
        Finite.Check(value, nameof(reading));
        int cell = Grid.CellOf(reading.AcrossMm, reading.AlongM);
        if (cell < 0)
        {
            _offTheGrid++;
            return;
        }

        if (_count++ == 0)
        {
            _origin = value;
        }

        ref CellSums sums = ref _cells[cell];
        double deviation = value - _origin;
        sums.Count++;
        sums.Sum += deviation;
        sums.Squares += deviation * deviation;
        if (value < _lower || value > _upper)
        {
            _outsideLimits++;
        }

        if (value < _smallest.Value)
        {
            _smallest = reading;
        }

        if (value > _largest.Value)
        {
            _largest = reading;
        }
    }

    /// <summary>Takes several readings.</summary>
    /// <param name="readings">The readings.</param>
    /// <exception cref="ArgumentException">A value is not finite.</exception>
    public void Add(ReadOnlySpan<RollReading> readings)
    {
        foreach (ref readonly RollReading one in readings)
        {
            Add(in one);
        }
    }

    /// <summary>What the readings so far say.</summary>
    /// <param name="options">How they are looked at; the defaults where none are given.</param>
    /// <exception cref="ArgumentOutOfRangeException">An option is outside its range.</exception>
    public RollReport Report(RollOptions? options = null)
    {
        options ??= new RollOptions();
        options.Check();
        CellTable table = new(Grid, _cells, _origin);
        RollSummary summary = Summary(table);
        return new RollReport(
            Grid,
            table.Cells(),
            CrossProfile.Of(table, options),
            AlongTrend.Of(table, options),
            StreakTest.Of(table, options),
            RollVariance.Of(table),
            summary,
            Limits is null ? null : RollVerdict.Of(summary, Limits));
    }

    private RollSummary Summary(CellTable table) =>
        new(_count, _offTheGrid)
        {
            Mean = table.GrandMean,
            StandardDeviation = _count > 1 ? Math.Sqrt(table.TotalSquares / (_count - 1)) : double.NaN,
            Smallest = _count > 0 ? _smallest : null,
            Largest = _count > 0 ? _largest : null,
            CountOutsideLimits = _outsideLimits,
            EmptyCells = table.EmptyCells,
        };
}
