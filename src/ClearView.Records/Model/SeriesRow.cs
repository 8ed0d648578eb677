namespace ClearView.Records.Model;

/// <summary>One value of a series.</summary>
/// <param name="MeasuredAtTicks">Time of measurement, UTC, in units of 100 ns since 0001-01-01.</param>
/// <param name="Sequence">Place of its reading in the order of recording.</param>
/// <param name="Value">The value, finite, in the measurand's unit.</param>
/// <param name="Label">The text that was asked for; "" for none.</param>
/// <param name="AcrossMm">Place across the web, mm; NaN for none.</param>
/// <param name="AlongM">Place along the web, m; NaN for none.</param>
public readonly record struct SeriesRow(
    long MeasuredAtTicks, long Sequence, double Value, string Label, double AcrossMm, double AlongM);
