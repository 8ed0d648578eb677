namespace ClearView.Records.Model;

/// <summary>A reading that is on durable storage.</summary>
/// <param name="Entry">The reading as it was handed in.</param>
/// <param name="RecordedAt">When the store took it, UTC, to 100 ns.</param>
public sealed record StoredReading(ReadingEntry Entry, DateTimeOffset RecordedAt);
