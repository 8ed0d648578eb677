using System.Collections.Concurrent;

namespace ClearView.Optics.Spectra;

/// <summary>Regular grids, each made once: an instrument has one, and sends it with every scan.</summary>
/// <remarks>What is kept for a grid (weighting tables, band weights, logarithms) is then found by reference. Thread-safe.</remarks>
public static class SharedGrids
{
    // A plant has a few instruments; a client that sends thousands of grids gains nothing and must not fill the memory.
    private const int MostKept = 256;

    private static readonly ConcurrentDictionary<(double StartNm, double IntervalNm, int Count), WavelengthGrid> Kept = new();

    /// <summary>Evenly spaced wavelengths, as <see cref="WavelengthGrid.Regular"/> makes them.</summary>
    /// <param name="startNm">First wavelength, nm.</param>
    /// <param name="intervalNm">Interval, nm, in (0, 50].</param>
    /// <param name="count">Number of wavelengths, 2 to 2001.</param>
    /// <exception cref="ArgumentOutOfRangeException">A figure, or the last wavelength that follows, is outside its range.</exception>
    public static WavelengthGrid Regular(double startNm, double intervalNm, int count)
    {
        if (Kept.TryGetValue((startNm, intervalNm, count), out WavelengthGrid? known))
        {
            return known;
        }

        var grid = WavelengthGrid.Regular(startNm, intervalNm, count);
        if (Kept.Count >= MostKept)
        {
            Kept.Clear();
        }

        return Kept.GetOrAdd((startNm, intervalNm, count), grid);
    }
}
