namespace ClearView.Records.Audit;

/// <summary>What is wrong with a chain.</summary>
public enum ChainFault
{
    /// <summary>The record is not what it was when its link was written.</summary>
    RecordChanged,

    /// <summary>The record of a link is gone.</summary>
    RecordMissing,

    /// <summary>The link does not follow from the one before it: one of the two was changed or moved.</summary>
    LinkChanged,

    /// <summary>A link of the chain is gone.</summary>
    LinkMissing,

    /// <summary>No link holds the record: it was slipped in, or its link was cut off.</summary>
    RecordWithoutLink,

    /// <summary>Another chain covers a head that this chain no longer has: its end was cut off or rewritten.</summary>
    CoveredHeadMissing,

    /// <summary>A head that was noted elsewhere is not in the store: the end of its chain was cut off or rewritten.</summary>
    NotedHeadMissing,

    /// <summary>A value of a series, a picture, a correction or an identifier belongs to no reading.</summary>
    PartWithoutRecord,
}
