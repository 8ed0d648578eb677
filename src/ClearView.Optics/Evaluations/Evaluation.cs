using System.Collections.Immutable;
using System.Runtime.CompilerServices;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Scattering;

namespace ClearView.Optics.Evaluations;

/// <summary>All that one specimen's scans yield under one method.</summary>
/// <remarks>What the scans or the method cannot give is <see langword="null"/>. Immutable, thread-safe.</remarks>
public sealed class Evaluation
{
    private ImmutableArray<MeasuredValue> _values;
    private StrongBox<ScatteringExponent?>? _scattering;

    /// <summary>The method.</summary>
    public required Method Method { get; init; }

    /// <summary>The reduced spectra; <see langword="null"/> for hazemeter readings.</summary>
    public required TransmittanceScans? Scans { get; init; }

    /// <summary>How spectra were weighted, in words; "instrument" for hazemeter readings.</summary>
    public required string Weighting { get; init; }

    /// <summary>Total luminous transmittance.</summary>
    public required LuminousTransmittance LuminousTransmittance { get; init; }

    /// <summary>Diffuse luminous transmittance; <see langword="null"/> where it was not measured.</summary>
    public required DiffuseLuminousTransmittance? DiffuseLuminousTransmittance { get; init; }

    /// <summary>Regular luminous transmittance, total less diffuse; <see langword="null"/> where diffuse was not measured.</summary>
    public RegularLuminousTransmittance? RegularLuminousTransmittance => DiffuseLuminousTransmittance is { } diffuse
        ? Transmission.RegularLuminousTransmittance.FromFraction(LuminousTransmittance.Fraction - diffuse.Fraction)
        : null;

    /// <summary>Haze; <see langword="null"/> where diffuse was not measured or no light passes.</summary>
    public Haze? Haze => DiffuseLuminousTransmittance is { } diffuse
        ? Transmission.Haze.FromTransmittances(diffuse, LuminousTransmittance)
        : null;

    /// <summary>The transmitted colour; <see langword="null"/> for hazemeter readings.</summary>
    public required TransmittedColour? Colour { get; init; }

    /// <summary>Yellowness index ASTM E313; <see langword="null"/> where it was not asked for or cannot be given.</summary>
    public required YellownessIndex? YellownessE313 { get; init; }

    /// <summary>Yellowness index ISO 17223; <see langword="null"/> where it was not asked for or cannot be given.</summary>
    public YellownessIndex? YellownessIso17223 { get; init; }

    /// <summary>Yellowness index ASTM D1925; <see langword="null"/> where it was not asked for or cannot be given.</summary>
    public required YellownessIndex? YellownessD1925 { get; init; }

    /// <summary>Light-barrier screen; <see langword="null"/> where it was not asked for or the scans do not reach over 290-450 nm.</summary>
    public LightBarrierScreen? LightBarrier { get; init; }

    /// <summary>The evaluation scaled to a reference thickness; <see langword="null"/> where it was not asked for or is refused.</summary>
    public ScaledEvaluation? AtReferenceThickness { get; init; }

    /// <summary>Fit of the spectral haze to a power of the wavelength; <see langword="null"/> where it cannot be fitted.</summary>
    public ScatteringExponent? Scattering =>
        (_scattering ??= new StrongBox<ScatteringExponent?>(Scans is null ? null : ScatteringExponent.Fit(Scans))).Value;

    /// <summary>What to be wary of.</summary>
    public required ImmutableArray<Caveat> Caveats { get; init; }

    /// <summary>Every measurand that there is a value for: those of the registry in its order, then the method's own bands.</summary>
    public ImmutableArray<MeasuredValue> Values => _values.IsDefault ? _values = ReadAll() : _values;

    private ImmutableArray<MeasuredValue> ReadAll()
    {
        var values = ImmutableArray.CreateBuilder<MeasuredValue>(Scans is null ? 4 : Measurand.All.Length);
        foreach (Measurand measurand in Measurand.All)
        {
            Add(measurand);
        }

        foreach (Band band in Method.Bands)
        {
            foreach (Measurand measurand in Measurands.OfBand(band))
            {
                Add(measurand);
            }
        }

        return values.DrainToImmutable();

        void Add(Measurand measurand)
        {
            if (measurand.Read(this) is { } value)
            {
                values.Add(value);
            }
        }
    }
}
