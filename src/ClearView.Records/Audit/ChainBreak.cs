namespace ClearView.Records.Audit;

/// <summary>The first place where a chain does not hold.</summary>
/// <param name="Fault">What is wrong.</param>
/// <param name="Chain">Number of the chain; 0 where the fault is of no chain.</param>
/// <param name="Position">Place of the link in its chain; 0 where there is none.</param>
/// <param name="Record">The record; <see langword="null"/> where it is not known.</param>
public sealed record ChainBreak(ChainFault Fault, long Chain, long Position, RecordKey? Record);
