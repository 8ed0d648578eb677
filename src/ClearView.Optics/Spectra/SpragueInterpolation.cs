namespace ClearView.Optics.Spectra;

/// <summary>Sprague's fifth-order interpolation of evenly spaced values (CIE 167).</summary>
/// <remarks>
/// Used to bring the 5 nm tables of the observers and of illuminants A and C to 1 nm. Two points are added beyond each
/// end by the factors that CIE 167 gives for it. Reproduces polynomials up to the fourth degree exactly away from the
/// ends, straight lines up to both ends.
/// </remarks>
public static class SpragueInterpolation
{
    // CIE 167: the two added points before the start, and (mirrored) after the end, each over 209.
    private static readonly double[] OuterPoint = [884, -1960, 3033, -2648, 1080, -180];
    private static readonly double[] InnerPoint = [508, -540, 488, -367, 144, -24];
    private const double PointDivisor = 209;

    /// <summary>Interpolates an evenly spaced spectrum onto other wavelengths.</summary>
    /// <param name="spectrum">The spectrum: evenly spaced, six values or more.</param>
    /// <param name="target">The wavelengths wanted, within the spectrum's range.</param>
    /// <exception cref="ArgumentException">The spectrum is irregular or has fewer than six values.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A wavelength lies outside the spectrum.</exception>
    public static Spectrum Resample(Spectrum spectrum, WavelengthGrid target)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        ArgumentNullException.ThrowIfNull(target);
        if (spectrum.Grid.IntervalNm is not { } interval || spectrum.Grid.Count < 6)
        {
            throw new ArgumentException("Sprague interpolation needs six or more evenly spaced values.", nameof(spectrum));
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(target.FirstNm, spectrum.Grid.FirstNm, nameof(target));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(target.LastNm, spectrum.Grid.LastNm, nameof(target));

        double[] padded = Pad(spectrum.Values);
        var values = new double[target.Count];
        for (int i = 0; i < values.Length; i++)
        {
            double position = (target[i] - spectrum.Grid.FirstNm) / interval;
            int node = Math.Min((int)Math.Floor(position), spectrum.Grid.Count - 2);
            values[i] = Evaluate(padded.AsSpan(node, 6), position - node);
        }

        return new Spectrum(target, values);
    }

    private static double[] Pad(ReadOnlySpan<double> values)
    {
        int n = values.Length;
        var padded = new double[n + 4];
        values.CopyTo(padded.AsSpan(2));
        for (int k = 0; k < 6; k++)
        {
            padded[0] += OuterPoint[k] * values[k] / PointDivisor;
            padded[1] += InnerPoint[k] * values[k] / PointDivisor;
            padded[n + 2] += InnerPoint[k] * values[n - 1 - k] / PointDivisor;
            padded[n + 3] += OuterPoint[k] * values[n - 1 - k] / PointDivisor;
        }

        return padded;
    }

    /// <summary>The polynomial between the third and fourth of six points.</summary>
    private static double Evaluate(ReadOnlySpan<double> p, double x)
    {
        double a1 = ((2 * p[0]) - (16 * p[1]) + (16 * p[3]) - (2 * p[4])) / 24;
        double a2 = (-p[0] + (16 * p[1]) - (30 * p[2]) + (16 * p[3]) - p[4]) / 24;
        double a3 = ((-9 * p[0]) + (39 * p[1]) - (70 * p[2]) + (66 * p[3]) - (33 * p[4]) + (7 * p[5])) / 24;
        double a4 = ((13 * p[0]) - (64 * p[1]) + (126 * p[2]) - (124 * p[3]) + (61 * p[4]) - (12 * p[5])) / 24;
        double a5 = ((-5 * p[0]) + (25 * p[1]) - (50 * p[2]) + (50 * p[3]) - (25 * p[4]) + (5 * p[5])) / 24;
        return p[2] + (x * (a1 + (x * (a2 + (x * (a3 + (x * (a4 + (x * a5)))))))));
    }
}
