using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission;

/// <summary>Total and, where it was measured, diffuse spectral transmittance of one specimen, on one grid.</summary>
/// <remarks>Regular transmittance and spectral haze follow from the two. Immutable, thread-safe.</remarks>
public sealed class TransmittanceScans
{
    /// <summary>Takes what an instrument has already normalised to its 0 % and 100 % lines.</summary>
    /// <param name="total">Total transmittance.</param>
    /// <param name="diffuse">Diffuse transmittance on the same grid, the instrument's own scatter removed; <see langword="null"/> where it was not measured.</param>
    /// <exception cref="ArgumentException">The two are on different grids.</exception>
    public TransmittanceScans(TransmittanceSpectrum total, TransmittanceSpectrum? diffuse)
    {
        ArgumentNullException.ThrowIfNull(total);
        if (diffuse is not null && diffuse.Grid != total.Grid)
        {
            throw new ArgumentException($"Diffuse transmittance is on {diffuse.Grid}, total on {total.Grid}; expected the same wavelengths.", nameof(diffuse));
        }

        Total = total;
        Diffuse = diffuse;
    }

    /// <summary>The wavelengths.</summary>
    public WavelengthGrid Grid => Total.Grid;

    /// <summary>Total transmittance.</summary>
    public TransmittanceSpectrum Total { get; }

    /// <summary>Diffuse transmittance, or <see langword="null"/> where it was not measured.</summary>
    public TransmittanceSpectrum? Diffuse { get; }

    /// <summary>Regular transmittance as fractions, total less diffuse; empty where diffuse was not measured.</summary>
    public double[] RegularFractions() => Combine(static (total, diffuse) => total - diffuse);

    /// <summary>Spectral haze in percent, 100 · diffuse / total; NaN where total is not above 0; empty where diffuse was not measured.</summary>
    public double[] SpectralHazePercents() => Combine(static (total, diffuse) => total > 0 ? 100 * diffuse / total : double.NaN);

    private double[] Combine(Func<double, double, double> combine)
    {
        if (Diffuse is null)
        {
            return [];
        }

        var values = new double[Grid.Count];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = combine(Total.Fractions[i], Diffuse.Fractions[i]);
        }

        return values;
    }
}
