namespace ClearView.Quality.Series;

/// <summary>One value of a series, with what may be known of it.</summary>
/// <param name="MeasuredAtTicks">Time of measurement, UTC, in units of 100 ns since 0001-01-01.</param>
/// <param name="RecordedOrder">Place in the order of recording; only comparisons count.</param>
/// <param name="Value">The value, finite, in the measurand's unit.</param>
/// <param name="Label">Label that subgroups are formed by; "" for none.</param>
/// <param name="AcrossMm">Place across the web, mm; NaN for none.</param>
/// <param name="AlongM">Place along the web, m; NaN for none.</param>
public readonly record struct SeriesReading(
    long MeasuredAtTicks, long RecordedOrder, double Value, string Label, double AcrossMm, double AlongM)
{
    /// <summary>Time of measurement, UTC.</summary>
    public DateTimeOffset MeasuredAt => new(MeasuredAtTicks, TimeSpan.Zero);
}
