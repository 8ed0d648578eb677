using ClearView.Optics.Spectra;

namespace ClearView.Optics.Uncertainty;

/// <summary>Derivatives of a measured spectrum with respect to wavelength: those of the quadratic Lagrange polynomial through each point and its neighbours.</summary>
internal static class SpectrumDerivative
{
    /// <summary>dT/dλ, per nm, one per wavelength.</summary>
    public static double[] First(TransmittanceSpectrum spectrum) =>
        At(spectrum, static (x, a, b, c) => (
            ((x - b) + (x - c)) / ((a - b) * (a - c)),
            ((x - a) + (x - c)) / ((b - a) * (b - c)),
            ((x - a) + (x - b)) / ((c - a) * (c - b))));

    /// <summary>d²T/dλ², per nm², one per wavelength.</summary>
    public static double[] Second(TransmittanceSpectrum spectrum) =>
        At(spectrum, static (_, a, b, c) => (2 / ((a - b) * (a - c)), 2 / ((b - a) * (b - c)), 2 / ((c - a) * (c - b))));

    private static double[] At(TransmittanceSpectrum spectrum, Func<double, double, double, double, (double A, double B, double C)> factors)
    {
        WavelengthGrid grid = spectrum.Grid;
        if (grid.Count < 3)
        {
            throw new ArgumentException("Derivatives need three or more wavelengths.", nameof(spectrum));
        }

        var result = new double[grid.Count];
        for (int i = 0; i < result.Length; i++)
        {
            int middle = Math.Clamp(i, 1, grid.Count - 2);
            (double a, double b, double c) = factors(grid[i], grid[middle - 1], grid[middle], grid[middle + 1]);
            result[i] = (a * spectrum.Fractions[middle - 1]) + (b * spectrum.Fractions[middle]) + (c * spectrum.Fractions[middle + 1]);
        }

        return result;
    }
}
