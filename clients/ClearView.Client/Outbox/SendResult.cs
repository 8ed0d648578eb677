using ClearView.V1;

namespace ClearView.Client.Outbox;

/// <summary>What came of sending one reading.</summary>
/// <param name="Kind"><see cref="OutboxEventKind.Stored"/>, <see cref="OutboxEventKind.AlreadyStored"/>, <see cref="OutboxEventKind.Refused"/> (for good) or <see cref="OutboxEventKind.Waiting"/> (to be tried again).</param>
/// <param name="Message">Why it was refused or waits, in words; empty where it is stored.</param>
/// <param name="Acknowledgement">The server's, with verdict and signals, where the reading is stored.</param>
public sealed record SendResult(OutboxEventKind Kind, string Message = "", PostAcknowledgement? Acknowledgement = null);
