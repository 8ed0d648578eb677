namespace ClearView.Quality.ControlCharts;

/// <summary>A subgroup or single reading with its time of measurement.</summary>
/// <param name="MeasuredAt">Time of measurement: what orders the chart.</param>
/// <param name="Subgroup">The subgroup.</param>
public readonly record struct SeriesPoint(DateTimeOffset MeasuredAt, Subgroup Subgroup)
{
    /// <summary>A single reading.</summary>
    /// <param name="measuredAt">Time of measurement.</param>
    /// <param name="reading">The reading.</param>
    public static SeriesPoint OfReading(DateTimeOffset measuredAt, double reading) => new(measuredAt, new Subgroup(1, reading, 0, 0));
}
