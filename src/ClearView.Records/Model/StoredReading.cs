namespace ClearView.Records.Model;

/// <summary>A reading that is on durable storage.</summary>
/// <param name="Entry">The reading as it was handed in.</param>
/// <param name="RecordedAt">When the store took it, UTC, to 100 ns.</param>
/// <param name="Sequence">Its place in the order of recording, from 1, ascending, not necessarily without gaps.</param>
public sealed record StoredReading(ReadingEntry Entry, DateTimeOffset RecordedAt, long Sequence)
{
    /// <summary>What the reading raised when it was posted, serialised; empty where it raised nothing, or it is not stored yet.</summary>
    public ReadOnlyMemory<byte> Signals { get; init; }

    /// <summary>The reading that took the place of this one; <see langword="null"/> while it stands.</summary>
    public Guid? SupersededBy { get; init; }

    /// <summary>Sequence of the reading that this one corrects; 0 for none.</summary>
    public long CorrectedSequence { get; init; }

    /// <summary>Line of the reading that this one corrects; empty for none. It differs from its own where the line is what was corrected.</summary>
    public string CorrectedLine { get; init; } = "";
}
