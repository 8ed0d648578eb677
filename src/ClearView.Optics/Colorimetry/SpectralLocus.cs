using System.Collections.Immutable;

using ClearView.Optics.Spectra;

namespace ClearView.Optics.Colorimetry;

/// <summary>Chromaticities of the spectral colours at 1 nm, 380-700 nm, closed by the purple line (CIE 15).</summary>
/// <remarks>
/// It begins at 380 nm and ends at 700 nm because beyond them the chromaticity stands still or, for the 10° observer,
/// turns back, so that a wavelength could no longer be told. Immutable, thread-safe.
/// </remarks>
public sealed class SpectralLocus
{
    /// <summary>First wavelength, nm.</summary>
    public const int FirstNm = 380;

    /// <summary>Last wavelength, nm.</summary>
    public const int LastNm = 700;

    internal SpectralLocus(Observer observer)
    {
        WavelengthGrid grid = observer.XBar.Grid;
        Points =
        [
            .. Enumerable.Range(FirstNm, LastNm - FirstNm + 1).Select(nm =>
            {
                int i = grid.IndexAtOrBelow(nm);
                return new Tristimulus(observer.XBar[i], observer.YBar[i], observer.ZBar[i]).ToChromaticity();
            }),
        ];
    }

    /// <summary>Chromaticities, one per whole nanometre from 380 to 700 nm.</summary>
    public ImmutableArray<Chromaticity> Points { get; }
}
