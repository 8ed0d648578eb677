namespace ClearView.Records.Model;

/// <summary>Which methods to list.</summary>
public sealed record MethodQuery
{
    /// <summary>Whether to list every version; otherwise the newest of each name.</summary>
    public bool AllVersions { get; init; }

    /// <summary>Most methods on the page, 1 or more.</summary>
    public int PageSize { get; init; } = 100;

    /// <summary>
    /// Bytes of methods after which the page ends early, 1 or more; a page with anything to show holds one method at least.
    /// </summary>
    public long MaxPayloadBytes { get; init; } = long.MaxValue;

    /// <summary>Continue behind this place; <see langword="null"/> starts at the beginning.</summary>
    public MethodPosition? After { get; init; }
}
