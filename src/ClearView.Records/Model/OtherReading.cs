namespace ClearView.Records.Model;

/// <summary>A reading that another server recorded, with what a chart needs of it.</summary>
/// <param name="Sequence">Its place in the order of recording.</param>
/// <param name="Entry">The reading with the values that were asked for; its payloads are left out.</param>
public sealed record OtherReading(long Sequence, ReadingEntry Entry);
