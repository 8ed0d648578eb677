using System.Collections.Immutable;

using ClearView.Optics.Transmission;

namespace ClearView.Optics.Uncertainty;

/// <summary>Standard uncertainty of the spectra and of spectral haze, wavelength by wavelength (JCGM 100, 5.1 and 5.2).</summary>
/// <remarks>
/// <para>Sources that act per wavelength are independent between total and diffuse; sources that move whole spectra move both
/// together, so that haze takes their covariance: u(H)² = Σ (100/T)²·(dD − (D/T)·dT)². A drift of the 100 % line cancels in it.</para>
/// <para>Values of neighbouring wavelengths are correlated through the same sources: these figures are not to be added up over
/// wavelength. Immutable, thread-safe.</para>
/// </remarks>
public sealed class SpectralUncertainty
{
    private SpectralUncertainty(double[] total, double[] diffuse, double[] haze)
    {
        TotalFraction = ImmutableArray.Create(total);
        DiffuseFraction = ImmutableArray.Create(diffuse);
        HazePercent = ImmutableArray.Create(haze);
    }

    /// <summary>Standard uncertainty of the total transmittance, fraction, one per wavelength.</summary>
    public ImmutableArray<double> TotalFraction { get; }

    /// <summary>Standard uncertainty of the diffuse transmittance, fraction, one per wavelength; empty where it was not measured.</summary>
    public ImmutableArray<double> DiffuseFraction { get; }

    /// <summary>Standard uncertainty of the spectral haze, %, one per wavelength; NaN where total is not above 0; empty where
    /// diffuse was not measured.</summary>
    public ImmutableArray<double> HazePercent { get; }

    /// <summary>Combines the sources at each wavelength.</summary>
    /// <param name="scans">The scans.</param>
    /// <param name="sources">The sources of error, independent of each other, made for these scans; none gives zeros.</param>
    public static SpectralUncertainty Of(TransmittanceScans scans, ImmutableArray<UncertaintySource> sources)
    {
        ArgumentNullException.ThrowIfNull(scans);
        int count = scans.Grid.Count;
        ReadOnlySpan<double> t = scans.Total.Fractions;
        ReadOnlySpan<double> d = scans.Diffuse is null ? [] : scans.Diffuse.Fractions;
        var total = new double[count];
        var diffuse = new double[d.Length];
        var haze = new double[d.Length];
        foreach (UncertaintySource source in sources)
        {
            bool together = source.Correlation == SourceCorrelation.WholeSpectrum;
            for (int component = 0; component < source.ComponentCount; component++)
            {
                ReadOnlySpan<double> dt = source.TotalDeviation(component);
                ReadOnlySpan<double> dd = source.DiffuseDeviation(component);
                for (int i = 0; i < count; i++)
                {
                    total[i] += dt[i] * dt[i];
                }

                for (int i = 0; i < dd.Length; i++)
                {
                    diffuse[i] += dd[i] * dd[i];
                    double ratio = d[i] / t[i];
                    double moved = dd[i] - (ratio * dt[i]);
                    double square = together ? moved * moved : (dd[i] * dd[i]) + (ratio * ratio * dt[i] * dt[i]);
                    haze[i] += square / (t[i] * t[i]);
                }
            }
        }

        for (int i = 0; i < count; i++)
        {
            total[i] = Math.Sqrt(total[i]);
        }

        for (int i = 0; i < d.Length; i++)
        {
            diffuse[i] = Math.Sqrt(diffuse[i]);
            haze[i] = t[i] > 0 ? 100 * Math.Sqrt(haze[i]) : double.NaN;
        }

        return new SpectralUncertainty(total, diffuse, haze);
    }
}
