namespace ClearView.Optics.Spectra;

/// <summary>Third-order Lagrange interpolation, quadratic in the first and last interval (ASTM E2022).</summary>
/// <remarks>
/// Between two neighbours the polynomial runs through the two points on either side; in the first and last interval
/// through the three end points. Nodes may be irregular. Outside the nodes the end value is held (ASTM E308).
/// </remarks>
public static class LagrangeInterpolation
{
    /// <summary>Interpolates a spectrum onto other wavelengths.</summary>
    /// <param name="spectrum">The spectrum.</param>
    /// <param name="target">The wavelengths wanted; those outside the spectrum get its end value.</param>
    public static Spectrum Resample(Spectrum spectrum, WavelengthGrid target)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        ArgumentNullException.ThrowIfNull(target);
        var values = new double[target.Count];
        Span<double> coefficients = stackalloc double[4];
        for (int i = 0; i < values.Length; i++)
        {
            int first = Coefficients(spectrum.Grid, target[i], coefficients, out int count);
            for (int k = 0; k < count; k++)
            {
                values[i] += coefficients[k] * spectrum[first + k];
            }
        }

        return new Spectrum(target, values);
    }

    /// <summary>The factors by which the node values enter the interpolated value.</summary>
    /// <param name="grid">The nodes.</param>
    /// <param name="wavelengthNm">Where to interpolate, nm.</param>
    /// <param name="coefficients">Takes up to four factors; their sum is 1.</param>
    /// <param name="count">How many were written.</param>
    /// <returns>Position of the node that the first factor belongs to.</returns>
    internal static int Coefficients(WavelengthGrid grid, double wavelengthNm, Span<double> coefficients, out int count)
    {
        int below = grid.IndexAtOrBelow(wavelengthNm);
        if (below < 0 || below >= grid.Count - 1 || grid[below] == wavelengthNm)
        {
            // Before the first node, at or after the last, or on a node: that node's value alone.
            coefficients[0] = 1;
            count = 1;
            return Math.Max(below, 0);
        }

        int first = Math.Max(below - 1, 0);
        int last = Math.Min(below + 2, grid.Count - 1);
        count = last - first + 1;
        for (int i = 0; i < count; i++)
        {
            double product = 1;
            for (int j = 0; j < count; j++)
            {
                if (j != i)
                {
                    product *= (wavelengthNm - grid[first + j]) / (grid[first + i] - grid[first + j]);
                }
            }

            coefficients[i] = product;
        }

        return first;
    }
}
