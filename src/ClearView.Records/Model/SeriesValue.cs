namespace ClearView.Records.Model;

/// <summary>One row of the series as it is kept, with its texts.</summary>
internal sealed record SeriesValue
{
    /// <summary>Production line.</summary>
    public required string Line { get; init; }

    /// <summary>Identifier of the measurand.</summary>
    public required string Measurand { get; init; }

    /// <summary>Time of measurement, UTC, in units of 100 ns since 0001-01-01.</summary>
    public required long MeasuredAtTicks { get; init; }

    /// <summary>Place of its reading in the order of recording.</summary>
    public required long Sequence { get; init; }

    /// <summary>The value, finite, in the measurand's unit.</summary>
    public required double Value { get; init; }

    /// <summary>Product.</summary>
    public required string Product { get; init; }

    /// <summary>Lot.</summary>
    public required string Lot { get; init; }

    /// <summary>Roll.</summary>
    public required string Roll { get; init; }

    /// <summary>Instrument.</summary>
    public required string Instrument { get; init; }

    /// <summary>Place across the web, mm.</summary>
    public double? AcrossMm { get; init; }

    /// <summary>Place along the web, m.</summary>
    public double? AlongM { get; init; }

    /// <summary>The rows of a reading.</summary>
    public static IEnumerable<SeriesValue> Of(ReadingEntry entry, long sequence) => entry.Values.Select(value => new SeriesValue
    {
        Line = entry.Line,
        Measurand = value.Measurand,
        MeasuredAtTicks = entry.MeasuredAt.UtcTicks,
        Sequence = sequence,
        Value = value.Value,
        Product = entry.Product,
        Lot = entry.Lot,
        Roll = entry.Roll,
        Instrument = entry.Instrument,
        AcrossMm = entry.AcrossMm,
        AlongM = entry.AlongM,
    });
}
