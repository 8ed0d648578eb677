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
        var asked = StandardRequirements.Of(standard);
        return
        [
            asked.JudgeLight(luminous),
            asked.Haze.Judge(haze?.Percent),
            asked.SpecimenCount.Judge(conditions.SpecimenCount),
            asked.Temperature.Judge(conditions.TemperatureC),
            asked.Humidity.Judge(conditions.HumidityPercent),
            asked.ConditioningTime.Judge(conditions.ConditioningHours),
            Covers(asked.SpecimenClause, conditions),
            asked.PortArea.Judge(conditions.PortAreaPercent),
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
}
