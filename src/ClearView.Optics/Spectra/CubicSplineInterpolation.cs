using MathNet.Numerics.Interpolation;

namespace ClearView.Optics.Spectra;

/// <summary>Natural cubic-spline interpolation: second derivative zero at both ends.</summary>
/// <remarks>For drawing smooth curves and for comparison. Results are computed with <see cref="LagrangeInterpolation"/>, which ASTM E2022 names.</remarks>
public static class CubicSplineInterpolation
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
        CubicSpline spline = CubicSpline.InterpolateNaturalSorted(spectrum.Grid.WavelengthsNm.ToArray(), spectrum.Values.ToArray());
        var values = new double[target.Count];
        for (int i = 0; i < values.Length; i++)
        {
            values[i] = spline.Interpolate(target[i]);
        }

        return new Spectrum(target, values);
    }
}
