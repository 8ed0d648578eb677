using System.Collections.Immutable;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Client.Files;

/// <summary>One row of a table of values: one specimen, or one place. Texts that the table does not give are empty.</summary>
public sealed record ValueRow
{
    /// <summary>Line of the file, from 1.</summary>
    public required int FileLine { get; init; }

    /// <summary>Time of measurement, UTC; <see langword="null"/> where the table gives none.</summary>
    public Timestamp? MeasuredAt { get; init; }

    /// <summary>Production line.</summary>
    public string Line { get; init; } = "";

    /// <summary>Product.</summary>
    public string Product { get; init; } = "";

    /// <summary>Resin or production lot.</summary>
    public string Lot { get; init; } = "";

    /// <summary>Roll of film.</summary>
    public string Roll { get; init; } = "";

    /// <summary>Specimen.</summary>
    public string Specimen { get; init; } = "";

    /// <summary>The plant's own name of the instrument.</summary>
    public string Instrument { get; init; } = "";

    /// <summary>Place across the web, mm; <see langword="null"/> where the table gives none.</summary>
    public double? AcrossMm { get; init; }

    /// <summary>Place along the web, m; <see langword="null"/> where the table gives none.</summary>
    public double? AlongM { get; init; }

    /// <summary>Ageing time, h, 0 or more; <see langword="null"/> where the table gives none.</summary>
    public double? AgeingHours { get; init; }

    /// <summary>Values by the measurand's identifier, each in the unit of the registry, finite; an empty cell has none.</summary>
    public required ImmutableSortedDictionary<string, double> Values { get; init; }
}
