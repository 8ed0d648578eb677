using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Thickness;

/// <summary>One refractive index for every wavelength, as handbooks give it for the sodium line.</summary>
public sealed class ConstantIndex : IRefractiveIndex
{
    private readonly double _index;

    /// <summary>Takes the index.</summary>
    /// <param name="index">The index, in (1, 3].</param>
    /// <param name="description">Name with its source.</param>
    /// <exception cref="ArgumentOutOfRangeException">The index is outside (1, 3].</exception>
    public ConstantIndex(double index, string description)
    {
        if (!(index is > 1 and <= 3))
        {
            throw new ArgumentOutOfRangeException(nameof(index), index, "expected a refractive index above 1 and at most 3.");
        }

        _index = index;
        Description = description;
    }

    /// <inheritdoc/>
    public string Description { get; }

    /// <inheritdoc/>
    public SpectralRange ValidRange { get; } = new(WavelengthGrid.MinimumNm, WavelengthGrid.MaximumNm);

    /// <inheritdoc/>
    public double At(double wavelengthNm) => _index;
}
