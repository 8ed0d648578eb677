using System.Collections.Immutable;
using System.Globalization;

using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Transmission.Conformity;

/// <summary>Which requirements of the chosen standard the record of a reading meets, fails, or is silent on.</summary>
/// <remarks>
/// Requirements are from memory of ASTM D1003 (with ASTM D618 conditioning) and of ISO 14782 and ISO 13468 (with ISO 291
/// conditioning), named by clause heading because editions number them differently. A statement on the record, not on the
/// laboratory: it cannot see what was not written down.
/// </remarks>
public static class ConformityStatement
{
    /// <summary>Holds the record against the standard.</summary>
    /// <param name="standard">The standard.</param>
    /// <param name="luminous">Illuminant and observer of the result.</param>
    /// <param name="haze">The haze; <see langword="null"/> where it is not given.</param>
    /// <param name="conditions">What the record says.</param>
    public static ImmutableArray<ConformityFinding> Of(
        HazeStandard standard, LightAndObserver luminous, Haze? haze, RecordedConditions conditions)
    {
        ArgumentNullException.ThrowIfNull(standard);
        ArgumentNullException.ThrowIfNull(luminous);
        ArgumentNullException.ThrowIfNull(conditions);
        bool astm = standard.HazeName.StartsWith("ASTM", StringComparison.Ordinal);
        string name = astm ? "ASTM D1003" : "ISO 14782";
        string conditioning = astm ? "ASTM D1003, conditioning (ASTM D618)" : "ISO 14782, conditioning (ISO 291)";
        return
        [
            new ConformityFinding(
                $"{name}, light source and observer",
                string.Join(" or ", standard.NamedPairs),
                standard.NamedPairs.Contains(luminous) ? ConformityOutcome.Met : ConformityOutcome.NotMet,
                $"computed for {luminous}"),
            Within($"{name}, scope", "haze", haze?.Percent, double.NegativeInfinity, standard.HighestHazePercent, "%"),
            Within($"{name}, test specimens", "number of specimens", conditions.SpecimenCount, 3, double.PositiveInfinity, ""),
            Within(conditioning, "temperature", conditions.TemperatureC, 21, 25, "°C"),
            Within(conditioning, "relative humidity", conditions.HumidityPercent, 40, 60, "%"),
            Within(conditioning, "time of conditioning", conditions.ConditioningHours, 40, double.PositiveInfinity, "h"),
            Covers($"{name}, test specimens", conditions),
            Within($"{name}, apparatus", "port area of the sphere", conditions.PortAreaPercent, double.NegativeInfinity, astm ? 4 : 3, "%"),
        ];
    }

    private static ConformityFinding Covers(string clause, RecordedConditions conditions)
    {
        const string requirement = "specimen covers the entrance port";
        return conditions is { SpecimenExtentMm: { } extent, PortDiameterMm: { } port }
            ? new ConformityFinding(
                clause,
                requirement,
                extent >= port ? ConformityOutcome.Met : ConformityOutcome.NotMet,
                string.Create(CultureInfo.InvariantCulture, $"specimen {extent:0.##} mm, port {port:0.##} mm"))
            : new ConformityFinding(clause, requirement, ConformityOutcome.NotRecorded, "extent of the specimen or diameter of the port not recorded");
    }

    private static ConformityFinding Within(string clause, string what, double? recorded, double least, double most, string unit)
    {
        string suffix = unit.Length == 0 ? "" : $" {unit}";
        string requirement = (double.IsInfinity(least), double.IsInfinity(most)) switch
        {
            (true, _) => string.Create(CultureInfo.InvariantCulture, $"{what} up to {most:0.##}{suffix}"),
            (_, true) => string.Create(CultureInfo.InvariantCulture, $"{what} {least:0.##}{suffix} or more"),
            _ => string.Create(CultureInfo.InvariantCulture, $"{what} {least:0.##} to {most:0.##}{suffix}"),
        };
        return recorded is { } value
            ? new ConformityFinding(
                clause,
                requirement,
                value >= least && value <= most ? ConformityOutcome.Met : ConformityOutcome.NotMet,
                string.Create(CultureInfo.InvariantCulture, $"{value:0.##}{suffix}"))
            : new ConformityFinding(clause, requirement, ConformityOutcome.NotRecorded, $"{what} not recorded");
    }
}
