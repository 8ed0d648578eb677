namespace ClearView.Records.Model;

/// <summary>A place between two readings of a list; it stays valid while readings are added.</summary>
/// <param name="MeasuredAt">Time of measurement of the last reading before the place.</param>
/// <param name="Id">Identifier of that reading.</param>
public readonly record struct ReadingPosition(DateTimeOffset MeasuredAt, Guid Id);
