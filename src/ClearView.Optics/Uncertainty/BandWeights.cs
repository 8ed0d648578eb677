using System.Collections.Concurrent;
using System.Runtime.CompilerServices;

using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission.Bands;

namespace ClearView.Optics.Uncertainty;

/// <summary>Weights of a band's mean on a grid, from the first wavelength that enters it to the last, for a result in percent.</summary>
/// <param name="First">Position of the first wavelength that enters.</param>
/// <param name="Percents">100 × the weight, one per wavelength from there on.</param>
internal sealed record BandWeights(int First, double[] Percents)
{
    // Users may ask for bands without end.
    private const int MostKept = 256;

    private static readonly ConditionalWeakTable<WavelengthGrid, ConcurrentDictionary<SpectralRange, BandWeights>> Kept = [];

    /// <summary>The weights, computed once for as long as the grid lives.</summary>
    public static BandWeights For(WavelengthGrid grid, Band band)
    {
        ConcurrentDictionary<SpectralRange, BandWeights> known = Kept.GetValue(grid, static _ => []);
        if (known.TryGetValue(band.Range, out BandWeights? weights))
        {
            return weights;
        }

        if (known.Count >= MostKept)
        {
            known.Clear();
        }

        return known.GetOrAdd(band.Range, Compute(grid, band));
    }

    private static BandWeights Compute(WavelengthGrid grid, Band band)
    {
        double[] all = BandTransmittance.MeanWeights(grid, band);
        int first = Array.FindIndex(all, weight => weight != 0);
        int last = Array.FindLastIndex(all, weight => weight != 0);
        return new BandWeights(first, Array.ConvertAll(all[first..(last + 1)], weight => 100 * weight));
    }
}
