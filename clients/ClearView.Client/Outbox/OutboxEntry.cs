using ClearView.V1;

namespace ClearView.Client.Outbox;

/// <summary>A reading that waits, and where its bytes lie.</summary>
/// <param name="Sequence">Number in the outbox.</param>
/// <param name="Segment">The segment.</param>
/// <param name="Offset">Where the record begins, bytes.</param>
/// <param name="Length">Length of the record, bytes.</param>
/// <param name="Check">Check of the payload.</param>
/// <param name="AcceptedMs">When it was accepted, ms since 1970.</param>
/// <param name="ReadingId">Identifier.</param>
/// <param name="Line">Production line.</param>
/// <param name="Specimen">Name of the specimen.</param>
internal sealed record OutboxEntry(
    long Sequence, OutboxSegment Segment, long Offset, int Length, uint Check, long AcceptedMs, string ReadingId, string Line, string Specimen)
{
    /// <summary>The entry of a record.</summary>
    public static OutboxEntry Of(OutboxRecord record, PostReadingRequest request, OutboxSegment segment, long offset) => new(
        record.Sequence, segment, offset, record.Length, record.Check, record.AcceptedMs,
        request.ReadingId, request.Measurement?.Identification?.Line ?? "", request.Measurement?.Identification?.Specimen ?? "");

    /// <summary>An event about this reading.</summary>
    public OutboxEvent Event(OutboxEventKind kind, string message, PostAcknowledgement? acknowledgement = null) =>
        new(kind, message, Sequence, ReadingId, Line, Specimen, acknowledgement);
}
