namespace ClearView.Records.Model;

/// <summary>Which documents to list.</summary>
public sealed record VersionQuery
{
    /// <summary>Whether to list every version; otherwise the newest of each name.</summary>
    public bool AllVersions { get; init; }

    /// <summary>Most documents on the page, 1 or more.</summary>
    public int PageSize { get; init; } = 100;

    /// <summary>
    /// Bytes of documents after which the page ends early, 1 or more; a page with anything to show holds one document at least.
    /// </summary>
    public long MaxPayloadBytes { get; init; } = long.MaxValue;

    /// <summary>Continue behind this place; <see langword="null"/> starts at the beginning.</summary>
    public VersionPosition? After { get; init; }
}
