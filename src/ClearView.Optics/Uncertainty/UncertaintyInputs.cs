using System.Collections.Immutable;

using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>What a user knows of an instrument's and a specimen's errors. Each figure is a standard uncertainty; 0 leaves the source out.</summary>
/// <remarks>Percentages are in percent transmittance unless said otherwise. Immutable.</remarks>
public sealed record UncertaintyInputs
{
    /// <summary>Repeatability of one reading at one wavelength, percent transmittance. Independent per wavelength.</summary>
    public double RepeatabilityPercent { get; init; }

    /// <summary>Repeatability per wavelength, percent transmittance, on the scans' grid; takes the place of <see cref="RepeatabilityPercent"/>.</summary>
    public Spectrum? RepeatabilityPercentByWavelength { get; init; }

    /// <summary>Degrees of freedom of the repeatability: readings it was found from, less one. Infinite where it is taken as known.</summary>
    public double RepeatabilityDegreesOfFreedom { get; init; } = double.PositiveInfinity;

    /// <summary>Offset of the 0 % line, percent transmittance. Moves whole spectra: dT = −(1 − T)·d0.</summary>
    public double ZeroOffsetPercent { get; init; }

    /// <summary>Drift of the 100 % line, percent of the reading. Moves whole spectra: dT = T·d100.</summary>
    public double HundredLineDriftPercent { get; init; }

    /// <summary>Photometric non-linearity, percent transmittance at mid-scale. Moves whole spectra: dT = 4T(1 − T)·dN.</summary>
    public double LinearityPercent { get; init; }

    /// <summary>Shift of the wavelength scale, nm. Moves whole spectra: dT = (dT/dλ)·dλ.</summary>
    public double WavelengthShiftNm { get; init; }

    /// <summary>Heterochromatic stray light, percent of all light. Moves whole spectra: dT = (mean T − T)·ds.</summary>
    public double StrayLightPercent { get; init; }

    /// <summary>Bandwidth (full width at half maximum, triangular) that was not corrected, nm. Moves whole spectra; the effect
    /// Δ²/12·T″ is taken as the half-width of a rectangular distribution.</summary>
    public double BandpassNm { get; init; }

    /// <summary>Scans of further specimens of the same material: their spread gives the uncertainty of the mean (type A) with its full covariance.</summary>
    public ImmutableArray<TransmittanceScans> Specimens { get; init; } = [];

    /// <summary>Whether an error is given that moves whole spectra.</summary>
    internal bool MovesWholeSpectra =>
        ZeroOffsetPercent > 0 || HundredLineDriftPercent > 0 || LinearityPercent > 0 || WavelengthShiftNm > 0 || StrayLightPercent > 0 || BandpassNm > 0;

    /// <summary>The sources that follow for a specimen.</summary>
    /// <param name="scans">The specimen's scans; with <see cref="Specimens"/>, their mean.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure is negative, NaN or infinite.</exception>
    /// <exception cref="ArgumentException">A spectrum is on another grid, or there are fewer than two specimens.</exception>
    public ImmutableArray<UncertaintySource> ToSources(TransmittanceScans scans)
    {
        ArgumentNullException.ThrowIfNull(scans);
        return new SourceBuilder(this, scans.Grid).Build(scans);
    }
}
