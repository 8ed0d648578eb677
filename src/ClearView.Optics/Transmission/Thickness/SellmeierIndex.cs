using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Thickness;

/// <summary>One-term Sellmeier dispersion: n² − 1 = B·λ² / (λ² − C), λ in µm.</summary>
public sealed class SellmeierIndex : IRefractiveIndex
{
    private readonly double _b;
    private readonly double _c;

    /// <summary>Takes the coefficients.</summary>
    /// <param name="b">B, above 0.</param>
    /// <param name="cMicrometresSquared">C, µm², 0 or more and below the square of the shortest wavelength.</param>
    /// <param name="validRange">Wavelengths over which the coefficients were fitted, nm.</param>
    /// <param name="description">Name with its source.</param>
    /// <exception cref="ArgumentOutOfRangeException">A coefficient is outside its range.</exception>
    public SellmeierIndex(double b, double cMicrometresSquared, SpectralRange validRange, string description)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(b);
        ArgumentOutOfRangeException.ThrowIfNegative(cMicrometresSquared);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(cMicrometresSquared, 0.039);
        _b = b;
        _c = cMicrometresSquared;
        ValidRange = validRange;
        Description = description;
    }

    /// <inheritdoc/>
    public string Description { get; }

    /// <inheritdoc/>
    public SpectralRange ValidRange { get; }

    /// <inheritdoc/>
    public double At(double wavelengthNm)
    {
        double squareMicrometres = wavelengthNm * wavelengthNm * 1e-6;
        return Math.Sqrt(1 + (_b * squareMicrometres / (squareMicrometres - _c)));
    }
}
