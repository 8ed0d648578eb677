using System.Collections.Immutable;

namespace ClearView.Client.Files;

/// <summary>The columns of a table of values beside its measurands. The names are those of <see cref="ScanFileKeys"/> where both have one.</summary>
public static class ValueTableKeys
{
    /// <summary>Ageing time of the specimen, h, 0 or more.</summary>
    public const string AgeingHours = "ageing_hours";

    /// <summary>Every column, in the order in which they are documented.</summary>
    public static ImmutableArray<string> All { get; } =
    [
        ScanFileKeys.MeasuredAt, ScanFileKeys.Line, ScanFileKeys.Product, ScanFileKeys.Lot, ScanFileKeys.Roll, ScanFileKeys.Specimen,
        ScanFileKeys.Instrument, ScanFileKeys.AcrossMm, ScanFileKeys.AlongM, AgeingHours,
    ];
}
