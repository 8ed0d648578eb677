using ClearView.Optics.Spectra;

namespace ClearView.Optics.Evaluations;

/// <summary>Gathers the wavelengths at which something holds: how many, from where to where.</summary>
internal sealed class WavelengthSpan(WavelengthGrid grid)
{
    public int Count { get; private set; }

    public SpectralRange? Range { get; private set; }

    public void Take(int index, bool holds)
    {
        if (holds)
        {
            Count++;
            Range = new SpectralRange(Range?.FromNm ?? grid[index], grid[index]);
        }
    }
}
