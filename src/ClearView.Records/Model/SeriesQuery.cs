namespace ClearView.Records.Model;

/// <summary>Which values make a series. Conditions are joined by "and"; one that is <see langword="null"/> does not filter.</summary>
public sealed record SeriesQuery
{
    /// <summary>Identifier of the measurand.</summary>
    public required string Measurand { get; init; }

    /// <summary>Production line, exactly. A series of one line is read fastest: it need not be sorted.</summary>
    public string? Line { get; init; }

    /// <summary>Product, exactly.</summary>
    public string? Product { get; init; }

    /// <summary>Lot, exactly.</summary>
    public string? Lot { get; init; }

    /// <summary>Roll, exactly.</summary>
    public string? Roll { get; init; }

    /// <summary>Instrument, exactly.</summary>
    public string? Instrument { get; init; }

    /// <summary>Measured at this time or later (to 100 ns).</summary>
    public DateTimeOffset? MeasuredFrom { get; init; }

    /// <summary>Measured before this time (to 100 ns).</summary>
    public DateTimeOffset? MeasuredBefore { get; init; }

    /// <summary>Whether places on the web are not needed; they may then be given as NaN, which reads faster.</summary>
    public bool OmitPlaces { get; init; }

    /// <summary>Which text comes with each value.</summary>
    public SeriesLabel Label { get; init; }
}
