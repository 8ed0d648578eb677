namespace ClearView.Records.Model;

/// <summary>Which readings to list. Conditions are joined by "and"; one that is <see langword="null"/> does not filter.</summary>
public sealed record ReadingQuery
{
    /// <summary>Production line, exactly.</summary>
    public string? Line { get; init; }

    /// <summary>Product, exactly.</summary>
    public string? Product { get; init; }

    /// <summary>Lot, exactly.</summary>
    public string? Lot { get; init; }

    /// <summary>Roll, exactly.</summary>
    public string? Roll { get; init; }

    /// <summary>Specimen, exactly.</summary>
    public string? Specimen { get; init; }

    /// <summary>Measured at this time or later (to 100 ns).</summary>
    public DateTimeOffset? MeasuredFrom { get; init; }

    /// <summary>Measured before this time (to 100 ns).</summary>
    public DateTimeOffset? MeasuredBefore { get; init; }

    /// <summary>Order of the list.</summary>
    public ReadingOrder Order { get; init; }

    /// <summary>Most readings on the page, 1 or more.</summary>
    public int PageSize { get; init; } = 100;

    /// <summary>
    /// Payload bytes after which the page ends early, 1 or more; a page with anything to show holds one reading at least.
    /// </summary>
    public long MaxPayloadBytes { get; init; } = long.MaxValue;

    /// <summary>Continue behind this place; <see langword="null"/> starts at the beginning.</summary>
    public ReadingPosition? After { get; init; }
}
