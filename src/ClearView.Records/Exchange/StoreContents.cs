namespace ClearView.Records.Exchange;

/// <summary>What a store holds, counted and summed up.</summary>
/// <param name="Readings">Readings.</param>
/// <param name="Values">Values of series.</param>
/// <param name="Documents">Documents, each version counted.</param>
/// <param name="Signals">Readings that raised signals.</param>
/// <param name="Links">Links of the chains.</param>
/// <param name="Sha256">SHA-256 over every row in its canonical order and form, lower-case hexadecimal.</param>
public sealed record StoreContents(long Readings, long Values, long Documents, long Signals, long Links, string Sha256);
