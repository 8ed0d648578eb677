using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Scattering;

namespace ClearView.Optics.Uncertainty;

/// <summary>Quantities that follow from the spectra directly, with their derivatives.</summary>
internal static class SpectralQuantities
{
    /// <summary>Mean transmittance over a band, %; <see langword="null"/> where the scans do not reach over it.</summary>
    public static SpectralGradient? BandMeanPercent(TransmittanceScans scans, Band band)
    {
        if (!Reaches(scans, band.Range))
        {
            return null;
        }

        double[] gradient = Array.ConvertAll(BandTransmittance.MeanWeights(scans.Grid, band), w => 100 * w);
        return new SpectralGradient(VectorMath.Dot(gradient, scans.Total.Fractions), gradient, []);
    }

    /// <summary>Greatest transmittance over a band, %; <see langword="null"/> where the scans do not reach over it.</summary>
    public static SpectralGradient? BandMaximumPercent(TransmittanceScans scans, Band band)
    {
        if (!Reaches(scans, band.Range))
        {
            return null;
        }

        BandTransmittance summary = BandTransmittance.Of(scans.Total, band);
        return new SpectralGradient(100 * summary.MaximumFraction, LinearAt(scans.Grid, summary.MaximumAtNm, 100), []);
    }

    /// <summary>Wavelength at which transmittance first reaches a level, nm; <see langword="null"/> where there is none.</summary>
    public static SpectralGradient? Edge(TransmittanceScans scans, double levelFraction)
    {
        if (EdgeWavelength.Find(scans.Total, levelFraction).WavelengthNm is not { } nm)
        {
            return null;
        }

        // At the crossing T(λ) = level on a straight line: dλ = −dT(λ) / slope.
        WavelengthGrid grid = scans.Grid;
        int below = Math.Clamp(grid.IndexAtOrBelow(nm), 0, grid.Count - 2);
        if (grid[below] == nm && below > 0)
        {
            below--;
        }

        double slope = (scans.Total.Fractions[below + 1] - scans.Total.Fractions[below]) / (grid[below + 1] - grid[below]);
        return new SpectralGradient(nm, LinearAt(grid, nm, -1 / slope), []);
    }

    /// <summary>Scattering exponent n of H ∝ λ^−n; <see langword="null"/> where it cannot be fitted.</summary>
    public static SpectralGradient? ScatteringExponentOf(TransmittanceScans scans)
    {
        if (ScatteringExponent.Fit(scans) is not { } fit)
        {
            return null;
        }

        double[] haze = scans.SpectralHazePercents();
        int[] used = [.. Enumerable.Range(0, haze.Length).Where(i => ScatteringExponent.Uses(scans.Grid[i], haze[i]))];
        double mean = used.Average(i => Math.Log(scans.Grid[i]));
        double spread = used.Sum(i => Math.Pow(Math.Log(scans.Grid[i]) - mean, 2));
        var total = new double[haze.Length];
        var diffuse = new double[haze.Length];
        foreach (int i in used)
        {
            // n = −Σ (xᵢ − x̄) ln Hᵢ / Sxx, and ln H = ln D − ln T.
            double factor = -(Math.Log(scans.Grid[i]) - mean) / spread;
            diffuse[i] = factor / scans.Diffuse!.Fractions[i];
            total[i] = -factor / scans.Total.Fractions[i];
        }

        return new SpectralGradient(fit.Exponent, total, diffuse);
    }

    private static bool Reaches(TransmittanceScans scans, SpectralRange range) =>
        SpectrumRangeException.MissingFrom(scans.Grid, range).IsEmpty;

    /// <summary>Gradient of a multiple of the linearly interpolated value at a wavelength.</summary>
    private static double[] LinearAt(WavelengthGrid grid, double nm, double factor)
    {
        var gradient = new double[grid.Count];
        int below = Math.Min(grid.IndexAtOrBelow(nm), grid.Count - 2);
        double share = (nm - grid[below]) / (grid[below + 1] - grid[below]);
        gradient[below] = factor * (1 - share);
        gradient[below + 1] = factor * share;
        return gradient;
    }
}
