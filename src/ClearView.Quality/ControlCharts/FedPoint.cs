namespace ClearView.Quality.ControlCharts;

/// <summary>A point of a chart, with the readings that it stands for.</summary>
/// <param name="Point">The point as it is drawn.</param>
/// <param name="Phase">Place of its phase, from 0.</param>
/// <param name="FirstReading">Place of its first reading among all readings of the chart, from 0.</param>
/// <param name="ReadingCount">Number of its readings; they follow each other.</param>
/// <param name="MeasuredAtTicks">Time of measurement of its last reading, UTC, in units of 100 ns since 0001-01-01.</param>
/// <param name="Label">Label of its subgroup; "" where there is none.</param>
public readonly record struct FedPoint(
    ControlPoint Point, int Phase, long FirstReading, int ReadingCount, long MeasuredAtTicks, string Label)
{
    /// <summary>Time of measurement of its last reading, UTC.</summary>
    public DateTimeOffset MeasuredAt => new(MeasuredAtTicks, TimeSpan.Zero);

    /// <summary>Whether a reading belongs to it.</summary>
    /// <param name="reading">Place of the reading, from 0.</param>
    public bool Holds(long reading) => reading >= FirstReading && reading < FirstReading + ReadingCount;
}
