namespace ClearView.Optics.Spectra;

/// <summary>Finite values without a prescribed scale over wavelength: detector readings, spectral power, matching functions.</summary>
/// <remarks>Transmittance has its own type, <see cref="TransmittanceSpectrum"/>. Copies its input; immutable, thread-safe.</remarks>
public sealed class Spectrum
{
    private readonly double[] _values;

    /// <summary>Takes one value per wavelength.</summary>
    /// <param name="grid">The wavelengths.</param>
    /// <param name="values">One finite value per wavelength; copied.</param>
    /// <exception cref="ArgumentException">The number of values is not that of the wavelengths, or one is NaN or infinite.</exception>
    public Spectrum(WavelengthGrid grid, ReadOnlySpan<double> values)
    {
        ArgumentNullException.ThrowIfNull(grid);
        SpectrumGuard.RequireFinite(grid, values, nameof(values));
        Grid = grid;
        _values = values.ToArray();
    }

    /// <summary>The wavelengths.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>The values, one per wavelength.</summary>
    public ReadOnlySpan<double> Values => _values;

    /// <summary>Value at a position.</summary>
    /// <param name="index">Position, from 0.</param>
    public double this[int index] => _values[index];
}
