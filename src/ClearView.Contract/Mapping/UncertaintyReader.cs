using ClearView.Contract.Validation;
using ClearView.Optics.Spectra;
using ClearView.Optics.Uncertainty;

using Google.Protobuf.Collections;

namespace ClearView.Contract.Mapping;

/// <summary>Reads what is known of the errors from the wire.</summary>
internal static class UncertaintyReader
{
    /// <summary>The inputs; <see langword="null"/> when something is at fault.</summary>
    public static UncertaintyInputs? Read(V1.UncertaintyInputs wire, WavelengthGrid grid, string path, Violations violations)
    {
        if (!(wire.CoveragePercent is > 0 and < 100))
        {
            violations.Add($"{path}.coverage_percent", $"was {wire.CoveragePercent}; expected above 0 and below 100 %.");
        }

        foreach ((string field, double value) in new[]
        {
            ("repeatability_percent", wire.RepeatabilityPercent),
            ("zero_offset_percent", wire.ZeroOffsetPercent),
            ("hundred_line_drift_percent", wire.HundredLineDriftPercent),
            ("linearity_percent", wire.LinearityPercent),
            ("wavelength_shift_nm", wire.WavelengthShiftNm),
            ("stray_light_percent", wire.StrayLightPercent),
            ("bandpass_nm", wire.BandpassNm),
        })
        {
            violations.RequireWithin($"{path}.{field}", value, 0, 100, field.EndsWith("nm", StringComparison.Ordinal) ? "nm" : "%");
        }

        if (wire.HasRepeatabilityReadingCount && wire.RepeatabilityReadingCount < 2)
        {
            violations.Add($"{path}.repeatability_reading_count", $"was {wire.RepeatabilityReadingCount}; expected 2 readings or more.");
        }

        if (wire.MonteCarlo is { SignificantDigits: < 0 or > 2 } run)
        {
            violations.Add($"{path}.monte_carlo.significant_digits", $"was {run.SignificantDigits}; expected 1 or 2.");
        }

        Spectrum? byWavelength = ReadByWavelength(wire.RepeatabilityByWavelengthPercent, grid, $"{path}.repeatability_by_wavelength_percent", violations);
        return violations.IsEmpty
            ? new UncertaintyInputs
            {
                RepeatabilityPercent = wire.RepeatabilityPercent,
                RepeatabilityPercentByWavelength = byWavelength,
                RepeatabilityDegreesOfFreedom = wire.HasRepeatabilityReadingCount ? wire.RepeatabilityReadingCount - 1 : double.PositiveInfinity,
                ZeroOffsetPercent = wire.ZeroOffsetPercent,
                HundredLineDriftPercent = wire.HundredLineDriftPercent,
                LinearityPercent = wire.LinearityPercent,
                WavelengthShiftNm = wire.WavelengthShiftNm,
                StrayLightPercent = wire.StrayLightPercent,
                BandpassNm = wire.BandpassNm,
            }
            : null;
    }

    private static Spectrum? ReadByWavelength(RepeatedField<double> values, WavelengthGrid grid, string path, Violations violations)
    {
        if (values.Count == 0)
        {
            return null;
        }

        if (values.Count != grid.Count)
        {
            violations.Add(path, $"had {values.Count} values; expected {grid.Count}, one per wavelength of the scan.");
            return null;
        }

        for (int i = 0; i < values.Count; i++)
        {
            if (!(values[i] is >= 0 and <= 100))
            {
                violations.Add($"{path}[{i}]", $"was {values[i]}; expected 0 to 100 %.");
                return null;
            }
        }

        return new Spectrum(grid, [.. values]);
    }
}
