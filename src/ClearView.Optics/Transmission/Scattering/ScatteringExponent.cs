using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Scattering;

/// <summary>Fit of spectral haze to a power of the wavelength, H ∝ λ^−n, over the visible.</summary>
/// <param name="Exponent">n.</param>
/// <param name="StandardError">Standard error of n from the fit's residuals.</param>
/// <param name="DeterminationCoefficient">Share of the variation of ln H that the fit explains, 0-1.</param>
/// <param name="PointCount">Number of wavelengths used.</param>
/// <remarks>
/// Ordinary least squares of ln H on ln λ over 400-700 nm. Scatterers much smaller than the wavelength give n near 4 (Rayleigh),
/// slight surface roughness n near 2, structures larger than the wavelength n near 0 (common practice, no source).
/// </remarks>
public readonly record struct ScatteringExponent(double Exponent, double StandardError, double DeterminationCoefficient, int PointCount)
{
    private const int FewestPoints = 5;

    /// <summary>What the exponent suggests, in words. A hint for the search, not a finding.</summary>
    public string Suggestion => Exponent switch
    {
        >= 3 => "scatterers much smaller than the wavelength (fine particles, voids or crystallites)",
        >= 1.5 => "surface roughness, or particles somewhat smaller than the wavelength",
        >= 0.75 => "particles about as large as the wavelength, or a mixture of sizes",
        >= -0.5 => "structures larger than the wavelength (coarse particles, gels, scratches)",
        _ => "haze rises with wavelength: no simple scattering; check the scans",
    };

    /// <summary>Fits the spectral haze of scans.</summary>
    /// <param name="scans">Scans with diffuse transmittance.</param>
    /// <returns>The fit, or <see langword="null"/> where diffuse was not measured or fewer than five wavelengths in 400-700 nm have a haze above 0.</returns>
    public static ScatteringExponent? Fit(TransmittanceScans scans)
    {
        ArgumentNullException.ThrowIfNull(scans);
        if (scans.Diffuse is null)
        {
            return null;
        }

        // Updated means and sums of squares, in one pass: the logarithms are all that costs.
        ReadOnlySpan<double> total = scans.Total.Fractions;
        ReadOnlySpan<double> diffuse = scans.Diffuse.Fractions;
        ReadOnlySpan<double> logWavelengths = scans.Grid.LogWavelengths;
        int n = 0;
        double meanX = 0;
        double meanY = 0;
        double sxx = 0;
        double sxy = 0;
        double syy = 0;
        for (int i = 0; i < total.Length; i++)
        {
            double haze = total[i] > 0 ? diffuse[i] / total[i] : double.NaN;
            if (!Uses(scans.Grid[i], haze))
            {
                continue;
            }

            n++;
            double x = logWavelengths[i] - meanX;
            double y = Math.Log(haze) - meanY;
            meanX += x / n;
            meanY += y / n;
            double left = (n - 1.0) / n;
            sxx += x * x * left;
            sxy += x * y * left;
            syy += y * y * left;
        }

        if (n < FewestPoints)
        {
            return null;
        }

        double slope = sxy / sxx;
        double residual = Math.Max(syy - (slope * sxy), 0);
        double error = Math.Sqrt(residual / (n - 2) / sxx);
        return new ScatteringExponent(0 - slope, error, syy > 0 ? 1 - (residual / syy) : 1, n);
    }

    /// <summary>Whether a point enters the fit.</summary>
    internal static bool Uses(double wavelengthNm, double haze) =>
        wavelengthNm >= SpectralRange.MinimumUseful.FromNm && wavelengthNm <= SpectralRange.MinimumUseful.ToNm && haze > 0;
}
