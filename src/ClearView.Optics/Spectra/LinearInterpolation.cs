namespace ClearView.Optics.Spectra;

/// <summary>Linear interpolation, by which CIE defines D65 and the daylight components between their tabled values (CIE 15).</summary>
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
        ArgumentOutOfRangeException.ThrowIfLessThan(target.FirstNm, spectrum.Grid.FirstNm, nameof(target));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(target.LastNm, spectrum.Grid.LastNm, nameof(target));
        WavelengthGrid grid = spectrum.Grid;
        var values = new double[target.Count];
        for (int i = 0; i < values.Length; i++)
        {
            int below = Math.Min(grid.IndexAtOrBelow(target[i]), grid.Count - 2);
            double share = (target[i] - grid[below]) / (grid[below + 1] - grid[below]);
            values[i] = ((1 - share) * spectrum[below]) + (share * spectrum[below + 1]);
        }

        return new Spectrum(target, values);
    }
}
