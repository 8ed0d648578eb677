using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Thickness;

/// <summary>A refractive index from a table, linear between its figures, end values held.</summary>
public sealed class TabulatedIndex : IRefractiveIndex
{
    private readonly Spectrum _table;

    /// <summary>Takes the table.</summary>
    /// <param name="table">Index over wavelength, each in (1, 3].</param>
    /// <param name="description">Name with its source.</param>
    /// <exception cref="ArgumentOutOfRangeException">An index is outside (1, 3].</exception>
    public TabulatedIndex(Spectrum table, string description)
    {
        ArgumentNullException.ThrowIfNull(table);
        foreach (double index in table.Values)
        {
            if (!(index is > 1 and <= 3))
            {
                throw new ArgumentOutOfRangeException(nameof(table), index, "expected refractive indices above 1 and at most 3.");
            }
        }

        _table = table;
        Description = description;
        ValidRange = new SpectralRange(table.Grid.FirstNm, table.Grid.LastNm);
    }

    /// <inheritdoc/>
    public string Description { get; }

    /// <inheritdoc/>
    public SpectralRange ValidRange { get; }

    /// <inheritdoc/>
    public double At(double wavelengthNm) =>
        LinearInterpolation.At(_table, Math.Clamp(wavelengthNm, ValidRange.FromNm, ValidRange.ToNm));
}
