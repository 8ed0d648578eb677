namespace ClearView.Records.Model;

/// <summary>What came of handing a reading to the store.</summary>
/// <param name="Reading">The reading under this identifier, as it is stored.</param>
/// <param name="AlreadyStored">
/// <see langword="true"/> when the identifier was taken, so that nothing was written (the stored reading may differ from
/// the one handed in); <see langword="false"/> when the reading is new.
/// </param>
public sealed record AppendOutcome(StoredReading Reading, bool AlreadyStored);
