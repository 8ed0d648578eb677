namespace ClearView.Records.Sql;

/// <summary>Where the values of a reading stand in the series.</summary>
/// <param name="Line">Code of the line.</param>
/// <param name="MeasuredAtTicks">Time of measurement, UTC, in units of 100 ns since 0001-01-01.</param>
/// <param name="Sequence">Place of the reading in the order of recording.</param>
internal readonly record struct SeriesPlace(long Line, long MeasuredAtTicks, long Sequence);
