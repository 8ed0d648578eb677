using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Tests.Uncertainty;

/// <summary>Scans of an invented film that blocks the ultraviolet, on 250-800 nm: every band and edge has a value.</summary>
internal static class InventedFilm
{
    public static WavelengthGrid Grid { get; } = WavelengthGrid.Between(250, 800, 5);

    public static TransmittanceScans Scans { get; } = new(
        TransmittanceSpectrum.FromFractions(Grid, Of(nm => 0.002 + ((0.85 + (0.0001 * (nm - 500))) / (1 + Math.Exp((380 - nm) / 12))))),
        TransmittanceSpectrum.FromFractions(Grid, Of(nm => 0.001 + (0.08 * Math.Pow(550 / nm, 2) / (1 + Math.Exp((380 - nm) / 12))))));

    public static double[] Of(Func<double, double> at) => Array.ConvertAll(Grid.WavelengthsNm.ToArray(), nm => at(nm));
}
