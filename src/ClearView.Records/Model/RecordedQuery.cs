namespace ClearView.Records.Model;

/// <summary>Which readings to list in the order of recording. Conditions are joined by "and"; <see langword="null"/> does not filter.</summary>
public sealed record RecordedQuery
{
    /// <summary>Continue behind this place in the order of recording; 0 starts at the beginning.</summary>
    public long After { get; init; }

    /// <summary>Production line, exactly.</summary>
    public string? Line { get; init; }

    /// <summary>Product, exactly.</summary>
    public string? Product { get; init; }

    /// <summary>Lot, exactly.</summary>
    public string? Lot { get; init; }

    /// <summary>Roll, exactly.</summary>
    public string? Roll { get; init; }

    /// <summary>
    /// Whether to list readings as soon as they are stored, although their signals may not be yet: for those who work out signals.
    /// </summary>
    public bool BeforeSignals { get; init; }

    /// <summary>Most readings on the page, 1 or more.</summary>
    public int PageSize { get; init; } = 100;

    /// <summary>Payload bytes after which the page ends early, 1 or more.</summary>
    public long MaxPayloadBytes { get; init; } = long.MaxValue;
}
