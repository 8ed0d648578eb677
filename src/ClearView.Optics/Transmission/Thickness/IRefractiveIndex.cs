using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Thickness;

/// <summary>The refractive index of a resin over wavelength.</summary>
public interface IRefractiveIndex
{
    /// <summary>Name with its source, for results.</summary>
    string Description { get; }

    /// <summary>Wavelengths over which the source gives figures; outside them the index is extrapolated.</summary>
    SpectralRange ValidRange { get; }

    /// <summary>The index at a wavelength.</summary>
    /// <param name="wavelengthNm">The wavelength, nm.</param>
    /// <returns>The index, above 1.</returns>
    double At(double wavelengthNm);
}
