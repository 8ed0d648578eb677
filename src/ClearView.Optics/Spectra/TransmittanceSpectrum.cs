using System.Globalization;

namespace ClearView.Optics.Spectra;

/// <summary>Spectral transmittance: the fraction of the light at each wavelength that passes the specimen.</summary>
/// <remarks>
/// <para>Held as fractions. A measured value may lie a little outside [0, 1] through noise; it is kept as it is and
/// never clamped. Outside [-0.5, 2] it cannot be a transmittance, is most likely percent taken for fraction, and is refused.</para>
/// <para>Copies its input; immutable, thread-safe.</para>
/// </remarks>
public sealed class TransmittanceSpectrum
{
    /// <summary>Lowest fraction accepted.</summary>
    public const double MinimumFraction = -0.5;

    /// <summary>Highest fraction accepted.</summary>
    public const double MaximumFraction = 2;

    private readonly double[] _fractions;

    private TransmittanceSpectrum(WavelengthGrid grid, double[] fractions)
    {
        Grid = grid;
        _fractions = fractions;
    }

    /// <summary>The wavelengths.</summary>
    public WavelengthGrid Grid { get; }

    /// <summary>Transmittance as a fraction, one per wavelength.</summary>
    public ReadOnlySpan<double> Fractions => _fractions;

    /// <summary>Takes fractions (0 to 1).</summary>
    /// <param name="grid">The wavelengths.</param>
    /// <param name="fractions">One fraction per wavelength, each in [-0.5, 2]; copied.</param>
    /// <exception cref="ArgumentException">The number of values is wrong, or one is NaN or infinite.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside [-0.5, 2].</exception>
    public static TransmittanceSpectrum FromFractions(WavelengthGrid grid, ReadOnlySpan<double> fractions)
    {
        ArgumentNullException.ThrowIfNull(grid);
        SpectrumGuard.RequireFinite(grid, fractions, nameof(fractions));
        return Checked(grid, fractions.ToArray(), nameof(fractions));
    }

    /// <summary>Takes percent (0 to 100).</summary>
    /// <param name="grid">The wavelengths.</param>
    /// <param name="percents">One percentage per wavelength, each in [-50, 200]; copied.</param>
    /// <exception cref="ArgumentException">The number of values is wrong, or one is NaN or infinite.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside [-50, 200].</exception>
    public static TransmittanceSpectrum FromPercents(WavelengthGrid grid, ReadOnlySpan<double> percents)
    {
        ArgumentNullException.ThrowIfNull(grid);
        SpectrumGuard.RequireFinite(grid, percents, nameof(percents));
        var fractions = new double[percents.Length];
        for (int i = 0; i < fractions.Length; i++)
        {
            fractions[i] = percents[i] / 100;
        }

        return Checked(grid, fractions, nameof(percents));
    }

    /// <summary>Takes an array as it is, unchecked and not copied: for spectra that a simulation draws anew again and again.</summary>
    internal static TransmittanceSpectrum Over(WavelengthGrid grid, double[] fractions) => new(grid, fractions);

    /// <summary>The values in percent, in a new array.</summary>
    public double[] ToPercents() => Array.ConvertAll(_fractions, fraction => fraction * 100);

    private static TransmittanceSpectrum Checked(WavelengthGrid grid, double[] fractions, string parameter)
    {
        for (int i = 0; i < fractions.Length; i++)
        {
            if (fractions[i] is < MinimumFraction or > MaximumFraction)
            {
                throw new ArgumentOutOfRangeException(
                    parameter,
                    fractions[i],
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"Transmittance is {fractions[i] * 100} % at {grid[i]} nm; expected -50 % to 200 %. Was percent given as fraction?"));
            }
        }

        return new TransmittanceSpectrum(grid, fractions);
    }
}
