using ClearView.Optics.Spectra;

namespace ClearView.Optics.Transmission.Bands;

/// <summary>Mean and greatest transmittance over a band.</summary>
/// <param name="Band">The band.</param>
/// <param name="MeanFraction">Mean over wavelength, fraction.</param>
/// <param name="MaximumFraction">Greatest value, fraction.</param>
/// <param name="MaximumAtNm">Where it is greatest, nm.</param>
public readonly record struct BandTransmittance(Band Band, double MeanFraction, double MaximumFraction, double MaximumAtNm)
{
    /// <summary>Summarises a spectrum over a band. Nothing is guessed outside what was measured.</summary>
    /// <param name="spectrum">The spectrum, reaching over the whole band.</param>
    /// <param name="band">The band.</param>
    /// <exception cref="SpectrumRangeException">The spectrum does not reach over the band.</exception>
    public static BandTransmittance Of(TransmittanceSpectrum spectrum, Band band)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        ArgumentNullException.ThrowIfNull(band);
        double mean = 0;
        double[] weights = MeanWeights(spectrum.Grid, band);
        for (int i = 0; i < weights.Length; i++)
        {
            mean += weights[i] * spectrum.Fractions[i];
        }

        (double greatest, double at) = Maximum(spectrum, band.Range);
        return new BandTransmittance(band, mean, greatest, at);
    }

    /// <summary>Factors by which each measured value enters the mean: the trapezium rule over the band, linear between measured
    /// wavelengths and at the band's ends.</summary>
    /// <param name="grid">The wavelengths, reaching over the whole band.</param>
    /// <param name="band">The band.</param>
    /// <exception cref="SpectrumRangeException">The grid does not reach over the band.</exception>
    internal static double[] MeanWeights(WavelengthGrid grid, Band band)
    {
        SpectrumRangeException.ThrowIfShort(grid, band.Range);
        var weights = new double[grid.Count];
        double width = band.Range.ToNm - band.Range.FromNm;
        for (int i = grid.IndexAtOrBelow(band.Range.FromNm); i + 1 < grid.Count && grid[i] < band.Range.ToNm; i++)
        {
            double from = Math.Max(grid[i], band.Range.FromNm);
            double to = Math.Min(grid[i + 1], band.Range.ToNm);
            if (to <= from)
            {
                continue;
            }

            // A straight line over [from, to] has its mean at the middle.
            double share = (((from + to) / 2) - grid[i]) / (grid[i + 1] - grid[i]);
            weights[i] += (1 - share) * (to - from) / width;
            weights[i + 1] += share * (to - from) / width;
        }

        return weights;
    }

    /// <summary>The greatest value over a range that the spectrum reaches over, and where it is.</summary>
    internal static (double Fraction, double Nm) Maximum(TransmittanceSpectrum spectrum, SpectralRange range)
    {
        WavelengthGrid grid = spectrum.Grid;
        ReadOnlySpan<double> values = spectrum.Fractions;
        (double Fraction, double Nm) best = (LinearInterpolation.At(grid, values, range.FromNm), range.FromNm);
        for (int i = grid.IndexAtOrBelow(range.FromNm) + 1; i < grid.Count && grid[i] < range.ToNm; i++)
        {
            best = values[i] > best.Fraction ? (values[i], grid[i]) : best;
        }

        double end = LinearInterpolation.At(grid, values, range.ToNm);
        return end > best.Fraction ? (end, range.ToNm) : best;
    }
}
