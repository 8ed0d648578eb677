using System.Collections.Immutable;

namespace ClearView.Records.Audit;

/// <summary>What came of verifying a store.</summary>
/// <param name="Links">Links that were looked at.</param>
/// <param name="Readings">Readings whose hash was computed again.</param>
/// <param name="Documents">Documents whose hash was computed again.</param>
/// <param name="Heads">The newest link of each chain.</param>
/// <param name="Break">The first break; <see langword="null"/> when everything holds. What stands behind it was not looked at.</param>
public sealed record AuditReport(long Links, long Readings, long Documents, ImmutableArray<ChainHead> Heads, ChainBreak? Break)
{
    /// <summary>Readings that were retired with their month: their links were looked at, and they themselves are in its export.</summary>
    public long Retired { get; init; }

    /// <summary>The month that the store is the export of; "" for a store as a whole.</summary>
    public string ExportOfMonth { get; init; } = "";

    /// <summary>SHA-256 over the rows of an export, to be compared with the one that its retirement says; "" for a store as a whole.</summary>
    public string ExportSha256 { get; init; } = "";

    /// <summary>Identifier of the reading at the break, where it is one and is still there.</summary>
    public Guid? BrokenReadingId { get; init; }
}
