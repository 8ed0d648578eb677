using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Bands;

/// <summary>The wavelength at which transmittance first reaches a level, from the short side.</summary>
/// <param name="LevelFraction">The level, fraction.</param>
/// <param name="WavelengthNm">The wavelength, nm, linear between measured ones; <see langword="null"/> where the level is never reached,
/// or is already exceeded at the first measured wavelength.</param>
/// <param name="IsBelowFirstMeasured">Whether the level is already exceeded at the first measured wavelength.</param>
public readonly record struct EdgeWavelength(double LevelFraction, double? WavelengthNm, bool IsBelowFirstMeasured)
{
    /// <summary>Finds the wavelength.</summary>
    /// <param name="spectrum">The spectrum.</param>
    /// <param name="levelFraction">The level, fraction, in (0, 1).</param>
    /// <exception cref="ArgumentOutOfRangeException">The level is outside (0, 1).</exception>
    public static EdgeWavelength Find(TransmittanceSpectrum spectrum, double levelFraction)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        if (!(levelFraction is > 0 and < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(levelFraction), levelFraction, "expected a fraction above 0 and below 1.");
        }

        ReadOnlySpan<double> values = spectrum.Fractions;
        if (values[0] > levelFraction)
        {
            return new EdgeWavelength(levelFraction, null, true);
        }

        for (int i = 0; i < values.Length; i++)
        {
            if (values[i] >= levelFraction)
            {
                double nm = i == 0 || values[i] == levelFraction
                    ? spectrum.Grid[i]
                    : spectrum.Grid[i - 1] + ((levelFraction - values[i - 1]) / (values[i] - values[i - 1])
                        * (spectrum.Grid[i] - spectrum.Grid[i - 1]));
                return new EdgeWavelength(levelFraction, nm, false);
            }
        }

        return new EdgeWavelength(levelFraction, null, false);
    }
}
