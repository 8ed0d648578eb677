using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

namespace ClearView.Contract.Validation;

/// <summary>Rules for everything in a measurement but its scans.</summary>
internal static class MeasurementRules
{
    private static readonly DateTimeOffset Earliest = new(1990, 1, 1, 0, 0, 0, TimeSpan.Zero);

    // Clocks on a line may run ahead and in another zone's day; further than this is a mistake.
    private static readonly TimeSpan FurthestAhead = TimeSpan.FromDays(1);

    public static void Check(Measurement measurement, MeasurementPath path, TimeProvider clock, Violations violations)
    {
        if (measurement.Conditions is null)
        {
            violations.Add(path.Conditions, $"was missing; expected the conditions of measurement.");
        }
        else
        {
            CheckConditions(measurement.Conditions, path.Conditions, violations);
        }

        if (measurement.Identification is null)
        {
            violations.Add(path.Identification, $"was missing; expected at least the specimen.");
        }
        else
        {
            CheckIdentification(measurement.Identification, path.Identification, violations);
        }

        CheckTime(measurement.MeasuredAt, path.MeasuredAt, clock, violations);
    }

    private static void CheckConditions(Conditions conditions, string path, Violations violations)
    {
        violations.RequireText($"{path}.instrument", conditions.Instrument);
        violations.RequireText($"{path}.operator", conditions.Operator);
        violations.RequirePositive($"{path}.aperture_mm", conditions.ApertureMm, 150, "mm");
        violations.RequireNamed($"{path}.uv_filter", conditions.UvFilter);
        violations.RequireNamed($"{path}.geometry", conditions.Geometry);
        if (conditions.HasThicknessUm)
        {
            violations.RequirePositive($"{path}.thickness_um", conditions.ThicknessUm, 100_000, "µm");
        }

        if (conditions.HasConditioningTemperatureC)
        {
            violations.RequireWithin($"{path}.conditioning_temperature_c", conditions.ConditioningTemperatureC, -50, 100, "°C");
        }

        if (conditions.HasConditioningHumidityPercent)
        {
            violations.RequireWithin($"{path}.conditioning_humidity_percent", conditions.ConditioningHumidityPercent, 0, 100, "%");
        }

        if (conditions.HasConditioningHours)
        {
            violations.RequireWithin($"{path}.conditioning_hours", conditions.ConditioningHours, 0, 10_000, "h");
        }

        if (conditions.HasSpecimenCount)
        {
            violations.RequireWithin($"{path}.specimen_count", conditions.SpecimenCount, 1, 10_000, "specimens");
        }

        if (conditions.HasSpecimenExtentMm)
        {
            violations.RequirePositive($"{path}.specimen_extent_mm", conditions.SpecimenExtentMm, 10_000, "mm");
        }

        if (conditions.HasPortDiameterMm)
        {
            violations.RequirePositive($"{path}.port_diameter_mm", conditions.PortDiameterMm, 500, "mm");
        }

        if (conditions.HasPortAreaPercent)
        {
            violations.RequirePositive($"{path}.port_area_percent", conditions.PortAreaPercent, 100, "%");
        }
    }

    private static void CheckIdentification(Identification identification, string path, Violations violations)
    {
        violations.CheckText($"{path}.line", identification.Line);
        violations.CheckText($"{path}.product", identification.Product);
        violations.CheckText($"{path}.lot", identification.Lot);
        violations.CheckText($"{path}.roll", identification.Roll);
        violations.RequireText($"{path}.specimen", identification.Specimen);
        if (identification.Web is { } web)
        {
            if (web.HasAcrossMm)
            {
                violations.RequireWithin($"{path}.web.across_mm", web.AcrossMm, 0, 20_000, "mm");
            }

            if (web.HasAlongM)
            {
                violations.RequireWithin($"{path}.web.along_m", web.AlongM, 0, 1_000_000, "m");
            }
        }

        if (identification.Wall is { } wall)
        {
            violations.RequireNamed($"{path}.wall.region", wall.Region);
            if (wall.HasHeightMm)
            {
                violations.RequireWithin($"{path}.wall.height_mm", wall.HeightMm, 0, 2000, "mm");
            }
        }
    }

    internal static void CheckTime(Timestamp? measuredAt, string path, TimeProvider clock, Violations violations)
    {
        if (measuredAt is null)
        {
            violations.Add(path, $"was missing; expected the time of measurement, UTC.");
            return;
        }

        long latest = (clock.GetUtcNow() + FurthestAhead).ToUnixTimeSeconds();
        if (measuredAt.Nanos is < 0 or > 999_999_999
            || measuredAt.Seconds < Earliest.ToUnixTimeSeconds()
            || measuredAt.Seconds > latest)
        {
            violations.Add(
                path,
                $"was {measuredAt.Seconds} s and {measuredAt.Nanos} ns after 1970; expected {Earliest:yyyy-MM-dd} to {DateTimeOffset.FromUnixTimeSeconds(latest):yyyy-MM-dd HH:mm} UTC.");
        }
    }
}
