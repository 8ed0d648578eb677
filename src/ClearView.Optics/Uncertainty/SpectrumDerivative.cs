using ClearView.Optics.Spectra;

namespace ClearView.Optics.Uncertainty;

/// <summary>Derivative of measured spectra with respect to wavelength: that of the quadratic Lagrange polynomial through each point and its neighbours.</summary>
/// <remarks>Prepared for a grid and a factor. At the ends the polynomial is that of the nearest point that has two neighbours.</remarks>
internal sealed class SpectrumDerivative
{
    private readonly (double A, double B, double C)[] _factors;

    private SpectrumDerivative(WavelengthGrid grid, double factor, Func<double, double, double, double, (double A, double B, double C)> at)
    {
        if (grid.Count < 3)
        {
            throw new ArgumentException("Derivatives need three or more wavelengths.", nameof(grid));
        }

        _factors = new (double, double, double)[grid.Count];
        for (int i = 0; i < _factors.Length; i++)
        {
            int middle = Math.Clamp(i, 1, grid.Count - 2);
            (double a, double b, double c) = at(grid[i], grid[middle - 1], grid[middle], grid[middle + 1]);
            _factors[i] = (factor * a, factor * b, factor * c);
        }
    }

    /// <summary>dT/dλ, per nm, times a factor.</summary>
    public static SpectrumDerivative First(WavelengthGrid grid, double factor) =>
        new(grid, factor, static (x, a, b, c) => (
            ((x - b) + (x - c)) / ((a - b) * (a - c)),
            ((x - a) + (x - c)) / ((b - a) * (b - c)),
            ((x - a) + (x - b)) / ((c - a) * (c - b))));

    /// <summary>d²T/dλ², per nm², times a factor.</summary>
    public static SpectrumDerivative Second(WavelengthGrid grid, double factor) =>
        new(grid, factor, static (_, a, b, c) => (2 / ((a - b) * (a - c)), 2 / ((b - a) * (b - c)), 2 / ((c - a) * (c - b))));

    /// <summary>The derivative times the factor, one per wavelength.</summary>
    public double[] Of(ReadOnlySpan<double> fractions)
    {
        var result = new double[fractions.Length];
        int last = fractions.Length - 1;
        for (int i = 1; i < last; i++)
        {
            result[i] = At(i, i, fractions);
        }

        result[0] = At(0, 1, fractions);
        result[last] = At(last, last - 1, fractions);
        return result;
    }

    private double At(int i, int middle, ReadOnlySpan<double> fractions)
    {
        (double a, double b, double c) = _factors[i];
        return (a * fractions[middle - 1]) + (b * fractions[middle]) + (c * fractions[middle + 1]);
    }
}
