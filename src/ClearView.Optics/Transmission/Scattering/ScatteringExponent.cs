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
        double[] haze = scans.SpectralHazePercents();
        (double X, double Y)[] points =
        [
            .. Enumerable.Range(0, haze.Length)
                .Where(i => Uses(scans.Grid[i], haze[i]))
                .Select(i => (Math.Log(scans.Grid[i]), Math.Log(haze[i]))),
        ];
        if (points.Length < FewestPoints)
        {
            return null;
        }

        double meanX = points.Average(p => p.X);
        double meanY = points.Average(p => p.Y);
        double sxx = points.Sum(p => (p.X - meanX) * (p.X - meanX));
        double sxy = points.Sum(p => (p.X - meanX) * (p.Y - meanY));
        double syy = points.Sum(p => (p.Y - meanY) * (p.Y - meanY));
        double slope = sxy / sxx;
        double residual = points.Sum(p => Math.Pow(p.Y - meanY - (slope * (p.X - meanX)), 2));
        double error = Math.Sqrt(residual / (points.Length - 2) / sxx);
        double explained = syy > 0 ? 1 - (residual / syy) : 1;
        return new ScatteringExponent(-slope, error, explained, points.Length);
    }

    /// <summary>Whether a point enters the fit.</summary>
    internal static bool Uses(double wavelengthNm, double hazePercent) =>
        wavelengthNm >= SpectralRange.MinimumUseful.FromNm && wavelengthNm <= SpectralRange.MinimumUseful.ToNm && hazePercent > 0;
}
