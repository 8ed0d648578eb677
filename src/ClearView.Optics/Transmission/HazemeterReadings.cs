using System.Globalization;

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission;

/// <summary>The four luminous readings of a hazemeter: T1 to T4 of ASTM D1003, procedure A.</summary>
/// <remarks>
/// In the instrument's own scale; they hold for the illuminant and observer that it realises. The default value is not
/// a measurement: make one with <see cref="Create"/>.
/// </remarks>
public readonly record struct HazemeterReadings
{
    private HazemeterReadings(double incident, double total, double instrumentScatter, double specimenScatter)
    {
        Incident = incident;
        Total = total;
        InstrumentScatter = instrumentScatter;
        SpecimenScatter = specimenScatter;
    }

    /// <summary>T1, incident light.</summary>
    public double Incident { get; }

    /// <summary>T2, all light that the specimen transmits.</summary>
    public double Total { get; }

    /// <summary>T3, light that the instrument scatters.</summary>
    public double InstrumentScatter { get; }

    /// <summary>T4, light that instrument and specimen scatter.</summary>
    public double SpecimenScatter { get; }

    /// <summary>τt = T2 / T1 (ASTM D1003, calculation clause).</summary>
    public LuminousTransmittance LuminousTransmittance => LuminousTransmittance.FromFraction(Total / Incident);

    /// <summary>τd = (T4 − T3 · T2 / T1) / T1 (ASTM D1003, calculation clause).</summary>
    public DiffuseLuminousTransmittance DiffuseLuminousTransmittance => DiffuseLuminousTransmittance.FromFraction(
        SphereReadings.DiffuseFraction(Incident, Total, InstrumentScatter, SpecimenScatter));

    /// <summary>Takes the four readings.</summary>
    /// <param name="incident">T1, above 0.</param>
    /// <param name="total">T2, finite.</param>
    /// <param name="instrumentScatter">T3, finite.</param>
    /// <param name="specimenScatter">T4, finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">T1 is not above 0, a reading is NaN or infinite, or a transmittance that
    /// follows lies outside [-0.5, 2].</exception>
    public static HazemeterReadings Create(double incident, double total, double instrumentScatter, double specimenScatter)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(Finite.Required(incident), nameof(incident));
        var readings = new HazemeterReadings(
            incident,
            Finite.Required(total),
            Finite.Required(instrumentScatter),
            Finite.Required(specimenScatter));
        RequirePhysical(total / incident, nameof(total));
        RequirePhysical(SphereReadings.DiffuseFraction(incident, total, instrumentScatter, specimenScatter), nameof(specimenScatter));
        return readings;
    }

    private static void RequirePhysical(double fraction, string parameter)
    {
        if (!(fraction >= TransmittanceSpectrum.MinimumFraction && fraction <= TransmittanceSpectrum.MaximumFraction))
        {
            throw new ArgumentOutOfRangeException(
                parameter,
                fraction,
                string.Create(CultureInfo.InvariantCulture, $"A transmittance of {fraction * 100} % follows; expected -50 % to 200 %."));
        }
    }
}
