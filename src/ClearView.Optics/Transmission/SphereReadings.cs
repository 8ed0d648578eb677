using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission;

/// <summary>The four spectral readings of a sphere instrument: T1 to T4 of ASTM D1003, τ1 to τ4 of ISO 14782.</summary>
/// <remarks>In the detector's own scale: only ratios count. Immutable, thread-safe.</remarks>
public sealed class SphereReadings
{
    /// <summary>Takes the four readings.</summary>
    /// <param name="incident">T1: no specimen, reflectance standard at the exit port; above 0 everywhere.</param>
    /// <param name="total">T2: specimen, reflectance standard at the exit port.</param>
    /// <param name="instrumentScatter">T3: no specimen, light trap at the exit port.</param>
    /// <param name="specimenScatter">T4: specimen, light trap at the exit port.</param>
    /// <exception cref="ArgumentException">The readings are on different grids.</exception>
    /// <exception cref="ArgumentOutOfRangeException">T1 is not above 0 at some wavelength.</exception>
    public SphereReadings(Spectrum incident, Spectrum total, Spectrum instrumentScatter, Spectrum specimenScatter)
    {
        ArgumentNullException.ThrowIfNull(incident);
        RequireGrid(incident.Grid, total, nameof(total));
        RequireGrid(incident.Grid, instrumentScatter, nameof(instrumentScatter));
        RequireGrid(incident.Grid, specimenScatter, nameof(specimenScatter));
        for (int i = 0; i < incident.Grid.Count; i++)
        {
            ArgumentOutOfRangeException.ThrowIfNegativeOrZero(incident[i], nameof(incident));
        }

        Incident = incident;
        Total = total;
        InstrumentScatter = instrumentScatter;
        SpecimenScatter = specimenScatter;
    }

    /// <summary>T1, incident light.</summary>
    public Spectrum Incident { get; }

    /// <summary>T2, all light that the specimen transmits.</summary>
    public Spectrum Total { get; }

    /// <summary>T3, light that the instrument scatters.</summary>
    public Spectrum InstrumentScatter { get; }

    /// <summary>T4, light that instrument and specimen scatter.</summary>
    public Spectrum SpecimenScatter { get; }

    /// <summary>Reduces the readings to transmittance, wavelength by wavelength.</summary>
    /// <remarks>ASTM D1003, calculation clause: total = T2 / T1; diffuse = (T4 − T3 · T2 / T1) / T1.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">A transmittance comes out outside [-0.5, 2].</exception>
    public TransmittanceScans Reduce()
    {
        int count = Incident.Grid.Count;
        var total = new double[count];
        var diffuse = new double[count];
        for (int i = 0; i < count; i++)
        {
            total[i] = Total[i] / Incident[i];
            diffuse[i] = DiffuseFraction(Incident[i], Total[i], InstrumentScatter[i], SpecimenScatter[i]);
        }

        return new TransmittanceScans(
            TransmittanceSpectrum.FromFractions(Incident.Grid, total),
            TransmittanceSpectrum.FromFractions(Incident.Grid, diffuse));
    }

    /// <summary>Diffuse transmittance of four readings (ASTM D1003, calculation clause).</summary>
    internal static double DiffuseFraction(double t1, double t2, double t3, double t4) => (t4 - (t3 * (t2 / t1))) / t1;

    private static void RequireGrid(WavelengthGrid grid, Spectrum readings, string parameter)
    {
        ArgumentNullException.ThrowIfNull(readings, parameter);
        if (readings.Grid != grid)
        {
            throw new ArgumentException($"{parameter} is on {readings.Grid}, incident on {grid}; expected the same wavelengths.", parameter);
        }
    }
}
