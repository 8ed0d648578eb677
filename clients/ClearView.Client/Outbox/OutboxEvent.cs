using ClearView.V1;

namespace ClearView.Client.Outbox;

/// <summary>Something that happened in an outbox.</summary>
/// <param name="Kind">What.</param>
/// <param name="Message">In words, in one line or more.</param>
/// <param name="Sequence">Number of the reading in this outbox, from 1; 0 where no single reading is meant.</param>
/// <param name="ReadingId">Identifier of the reading; empty where no single reading is meant.</param>
/// <param name="Line">Production line; empty where none is meant or the reading names none.</param>
/// <param name="Specimen">Name of the specimen; empty where no single reading is meant.</param>
/// <param name="Acknowledgement">The server's, with verdict and signals, where a reading is stored.</param>
public sealed record OutboxEvent(
    OutboxEventKind Kind, string Message, long Sequence = 0, string ReadingId = "", string Line = "", string Specimen = "", PostAcknowledgement? Acknowledgement = null);
