using ClearView.Contract.Validation;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Contract.Mapping;

/// <summary>Reads scans from the wire and reduces them to transmittance.</summary>
internal static class ScansReader
{
    /// <summary>Spectral scans; <see langword="null"/> when something is at fault.</summary>
    public static TransmittanceScans? ReadNormalised(V1.NormalisedScans scans, string path, Violations violations)
    {
        WavelengthGrid? grid = ReadUsefulGrid(scans.Grid, $"{path}.grid", violations);
        bool hasUnit = violations.RequireNamed($"{path}.transmittance_unit", scans.TransmittanceUnit);
        if (grid is null || !hasUnit)
        {
            return null;
        }

        bool percent = scans.TransmittanceUnit == V1.TransmittanceUnit.Percent;
        TransmittanceSpectrum? total = ReadTransmittance(grid, scans.TotalTransmittance, percent, $"{path}.total_transmittance", violations);
        if (scans.DiffuseTransmittance.Count == 0)
        {
            return total is null ? null : new TransmittanceScans(total, null);
        }

        TransmittanceSpectrum? diffuse = ReadTransmittance(grid, scans.DiffuseTransmittance, percent, $"{path}.diffuse_transmittance", violations);
        return total is null || diffuse is null ? null : new TransmittanceScans(total, diffuse);
    }

    /// <summary>Sphere readings, reduced; <see langword="null"/> when something is at fault.</summary>
    public static TransmittanceScans? ReadSphere(V1.SphereScans scans, string path, Violations violations)
    {
        if (ReadUsefulGrid(scans.Grid, $"{path}.grid", violations) is not { } grid)
        {
            return null;
        }

        Spectrum? incident = ReadReadings(grid, scans.IncidentReading, $"{path}.incident_reading", violations);
        Spectrum? total = ReadReadings(grid, scans.TotalReading, $"{path}.total_reading", violations);
        Spectrum? instrument = ReadReadings(grid, scans.InstrumentScatterReading, $"{path}.instrument_scatter_reading", violations);
        Spectrum? specimen = ReadReadings(grid, scans.SpecimenScatterReading, $"{path}.specimen_scatter_reading", violations);
        if (incident is not null)
        {
            int dark = IndexWhere(incident.Values, value => !(value > 0));
            if (dark >= 0)
            {
                violations.Add($"{path}.incident_reading[{dark}]", $"was {incident[dark]} at {grid[dark]} nm; expected above 0.");
                incident = null;
            }
        }

        if (incident is null || total is null || instrument is null || specimen is null)
        {
            return null;
        }

        try
        {
            return new SphereReadings(incident, total, instrument, specimen).Reduce();
        }
        catch (ArgumentException unphysical)
        {
            violations.Add(path, $"do not reduce to a transmittance: {unphysical.Message}");
            return null;
        }
    }

    /// <summary>Hazemeter readings; <see langword="null"/> when something is at fault.</summary>
    public static HazemeterReadings? ReadHazemeter(V1.HazemeterReadings readings, string path, Violations violations)
    {
        bool valid = IsFinite("incident_reading", readings.IncidentReading)
            & IsFinite("total_reading", readings.TotalReading)
            & IsFinite("instrument_scatter_reading", readings.InstrumentScatterReading)
            & IsFinite("specimen_scatter_reading", readings.SpecimenScatterReading);
        if (valid && readings.IncidentReading <= 0)
        {
            violations.Add($"{path}.incident_reading", $"was {readings.IncidentReading}; expected above 0.");
            valid = false;
        }

        if (!valid)
        {
            return null;
        }

        try
        {
            return HazemeterReadings.Create(
                readings.IncidentReading, readings.TotalReading, readings.InstrumentScatterReading, readings.SpecimenScatterReading);
        }
        catch (ArgumentException unphysical)
        {
            violations.Add(path, $"do not reduce to a transmittance: {unphysical.Message}");
            return null;
        }

        bool IsFinite(string field, double value)
        {
            if (double.IsFinite(value))
            {
                return true;
            }

            violations.Add($"{path}.{field}", $"was {value}; expected a finite number.");
            return false;
        }
    }

    private static WavelengthGrid? ReadUsefulGrid(V1.WavelengthGrid? wire, string path, Violations violations)
    {
        if (GridReader.Read(wire, path, violations) is not { } grid)
        {
            return null;
        }

        var missing = SpectrumRangeException.MissingFrom(grid, SpectralRange.MinimumUseful);
        if (missing.IsEmpty)
        {
            return grid;
        }

        violations.Add(path, $"was {grid}, which lacks {string.Join(" and ", missing)}; expected to reach over {SpectralRange.MinimumUseful} at least.");
        return null;
    }

    private static TransmittanceSpectrum? ReadTransmittance(
        WavelengthGrid grid, IReadOnlyList<double> values, bool percent, string path, Violations violations)
    {
        if (ReadReadings(grid, values, path, violations) is not { } spectrum)
        {
            return null;
        }

        double scale = percent ? 100 : 1;
        int wild = IndexWhere(
            spectrum.Values,
            value => value / scale is < TransmittanceSpectrum.MinimumFraction or > TransmittanceSpectrum.MaximumFraction);
        if (wild >= 0)
        {
            string unit = percent ? "%" : "as a fraction (is it percent?)";
            violations.Add(
                $"{path}[{wild}]",
                $"was {spectrum[wild]} at {grid[wild]} nm; expected {TransmittanceSpectrum.MinimumFraction * scale} to {TransmittanceSpectrum.MaximumFraction * scale} {unit}.");
            return null;
        }

        return percent
            ? TransmittanceSpectrum.FromPercents(grid, spectrum.Values)
            : TransmittanceSpectrum.FromFractions(grid, spectrum.Values);
    }

    private static Spectrum? ReadReadings(WavelengthGrid grid, IReadOnlyList<double> values, string path, Violations violations)
    {
        if (values.Count != grid.Count)
        {
            violations.Add(path, $"had {values.Count} values; expected {grid.Count}, one per wavelength.");
            return null;
        }

        double[] copy = [.. values];
        int bad = IndexWhere(copy, value => !double.IsFinite(value));
        if (bad >= 0)
        {
            violations.Add($"{path}[{bad}]", $"was {copy[bad]} at {grid[bad]} nm; expected a finite number.");
            return null;
        }

        return new Spectrum(grid, copy);
    }

    private static int IndexWhere(ReadOnlySpan<double> values, Func<double, bool> holds)
    {
        for (int i = 0; i < values.Length; i++)
        {
            if (holds(values[i]))
            {
                return i;
            }
        }

        return -1;
    }
}
