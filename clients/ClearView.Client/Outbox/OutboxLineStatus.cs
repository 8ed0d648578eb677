namespace ClearView.Client.Outbox;

/// <summary>What waits of one line.</summary>
/// <param name="Line">The line; empty for readings that name none.</param>
/// <param name="Waiting">How many readings wait.</param>
/// <param name="Since">When the first of them was accepted, by the clock of this machine.</param>
public sealed record OutboxLineStatus(string Line, int Waiting, DateTimeOffset Since);
