using System.Collections.Immutable;

namespace ClearView.Client.Files;

/// <summary>The keys under which a scan file, or an option, gives conditions, identification and time of a measurement.</summary>
public static class ScanFileKeys
{
    /// <summary>The plant's own name of the instrument. Required.</summary>
    public const string Instrument = "instrument";

    /// <summary>Diameter of the measured area, mm. Required.</summary>
    public const string ApertureMm = "aperture_mm";

    /// <summary>Whether ultraviolet light reached the specimen: none, 400, 420, 460 (cut-off, nm) or not_recorded. Required.</summary>
    public const string UvFilter = "uv_filter";

    /// <summary>Geometry: 0:d (directional to sphere), d:0 (sphere to directional) or not_recorded. Required.</summary>
    public const string Geometry = "geometry";

    /// <summary>Who measured. Required.</summary>
    public const string Operator = "operator";

    /// <summary>Thickness, µm.</summary>
    public const string ThicknessUm = "thickness_um";

    /// <summary>Temperature of the conditioning room, °C.</summary>
    public const string ConditioningTemperatureC = "conditioning_temperature_c";

    /// <summary>Relative humidity of the conditioning room, %.</summary>
    public const string ConditioningHumidityPercent = "conditioning_humidity_percent";

    /// <summary>Time of conditioning, h.</summary>
    public const string ConditioningHours = "conditioning_hours";

    /// <summary>Number of specimens that the scans stand for, a whole number.</summary>
    public const string SpecimenCount = "specimen_count";

    /// <summary>Smallest extent of the specimen, mm.</summary>
    public const string SpecimenExtentMm = "specimen_extent_mm";

    /// <summary>Diameter of the sphere's entrance port, mm.</summary>
    public const string PortDiameterMm = "port_diameter_mm";

    /// <summary>Area of all ports over the inner area of the sphere, %.</summary>
    public const string PortAreaPercent = "port_area_percent";

    /// <summary>Production line.</summary>
    public const string Line = "line";

    /// <summary>Product.</summary>
    public const string Product = "product";

    /// <summary>Resin or production lot.</summary>
    public const string Lot = "lot";

    /// <summary>Roll of film.</summary>
    public const string Roll = "roll";

    /// <summary>Specimen. Required.</summary>
    public const string Specimen = "specimen";

    /// <summary>Position across the web from the operator side, mm.</summary>
    public const string AcrossMm = "across_mm";

    /// <summary>Position along the web from the start of the roll, m.</summary>
    public const string AlongM = "along_m";

    /// <summary>Region of a bottle's wall: panel, shoulder, base or label_area.</summary>
    public const string WallRegion = "wall_region";

    /// <summary>Height above the bottle's standing plane, mm; only with <see cref="WallRegion"/>.</summary>
    public const string HeightMm = "height_mm";

    /// <summary>Time of measurement, ISO 8601 with its offset from UTC, for example 2026-03-02T06:15:00Z. Required.</summary>
    public const string MeasuredAt = "measured_at";

    /// <summary>Scale of total and diffuse columns whose header gives none: percent or fraction.</summary>
    public const string TransmittanceUnit = "transmittance_unit";

    /// <summary>Every key, in the order in which they are documented.</summary>
    public static ImmutableArray<string> All { get; } =
    [
        Instrument, ApertureMm, UvFilter, Geometry, Operator, ThicknessUm,
        ConditioningTemperatureC, ConditioningHumidityPercent, ConditioningHours,
        SpecimenCount, SpecimenExtentMm, PortDiameterMm, PortAreaPercent,
        Line, Product, Lot, Roll, Specimen, AcrossMm, AlongM, WallRegion, HeightMm, MeasuredAt, TransmittanceUnit,
    ];

    /// <summary>Keys without which there is no measurement.</summary>
    public static ImmutableArray<string> Required { get; } =
        [Instrument, ApertureMm, UvFilter, Geometry, Operator, Specimen, MeasuredAt];

    /// <summary>The key that a text means, whatever its case and with spaces for underscores.</summary>
    /// <param name="text">What stands in the file or option, for example "Aperture mm".</param>
    /// <returns>The key, or <see langword="null"/> when there is none of that name.</returns>
    public static string? Find(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var wanted = text.Trim().Replace(' ', '_');
        return All.FirstOrDefault(key => string.Equals(key, wanted, StringComparison.OrdinalIgnoreCase));
    }

    /// <summary>The keys with a unit in their name that a text without that unit may mean, for example "thickness".</summary>
    internal static string? FindWithoutUnit(string text)
    {
        var wanted = text.Trim().Replace(' ', '_') + "_";
        return All.FirstOrDefault(key => key.StartsWith(wanted, StringComparison.OrdinalIgnoreCase)
            && key[wanted.Length..] is "mm" or "um" or "m" or "c" or "percent");
    }
}
