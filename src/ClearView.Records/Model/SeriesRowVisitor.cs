namespace ClearView.Records.Model;

/// <summary>Takes the values of a series one at a time.</summary>
/// <param name="row">The value; valid during the call only.</param>
public delegate void SeriesRowVisitor(in SeriesRow row);
