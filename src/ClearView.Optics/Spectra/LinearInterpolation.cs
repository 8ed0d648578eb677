namespace ClearView.Optics.Spectra;

/// <summary>Linear interpolation, by which CIE defines D65, the daylight components and the lamps between their tabled values (CIE 15).</summary>
public static class LinearInterpolation
{
    /// <summary>Interpolates a spectrum onto other wavelengths.</summary>
    /// <param name="spectrum">The spectrum.</param>
    /// <param name="target">The wavelengths wanted, within the spectrum's range.</param>
    /// <exception cref="ArgumentOutOfRangeException">A wavelength lies outside the spectrum.</exception>
    public static Spectrum Resample(Spectrum spectrum, WavelengthGrid target)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        ArgumentNullException.ThrowIfNull(target);
        var values = new double[target.Count];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = At(spectrum, target[i]);
        }

        return new Spectrum(target, values);
    }

    /// <summary>The interpolated value at one wavelength.</summary>
    /// <param name="spectrum">The spectrum.</param>
    /// <param name="wavelengthNm">The wavelength, nm, within the spectrum's range.</param>
    /// <exception cref="ArgumentOutOfRangeException">The wavelength lies outside the spectrum.</exception>
    public static double At(Spectrum spectrum, double wavelengthNm)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        return At(spectrum.Grid, spectrum.Values, wavelengthNm);
    }

    /// <summary>The interpolated value of bare values on a grid.</summary>
    internal static double At(WavelengthGrid grid, ReadOnlySpan<double> values, double wavelengthNm)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(wavelengthNm, grid.FirstNm);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(wavelengthNm, grid.LastNm);
        int below = Math.Min(grid.IndexAtOrBelow(wavelengthNm), grid.Count - 2);
        double share = (wavelengthNm - grid[below]) / (grid[below + 1] - grid[below]);
        return ((1 - share) * values[below]) + (share * values[below + 1]);
    }
}
