using System.Collections.Immutable;

using ClearView.Plotting.Model;

namespace ClearView.Plotting.Charts;

/// <summary>Names of the stretches of the spectrum, for the reader's bearings (common practice, no source: the limits differ by author).</summary>
internal static class SpectralRegions
{
    private static readonly ImmutableArray<BandModel> All =
    [
        new(200, 380, "ultraviolet"),
        new(380, 450, "visible: violet"),
        new(450, 495, "blue"),
        new(495, 570, "green"),
        new(570, 620, "yellow-orange"),
        new(620, 780, "red"),
        new(780, 1100, "near infrared"),
    ];

    private const double LeastShownNm = 5;
    private const double LeastNamedShare = 0.09;

    /// <summary>Shades the regions in every panel and names them above the first.</summary>
    public static ImmutableArray<PanelModel> Name(ImmutableArray<PanelModel> panels, SpectralScan scan)
    {
        ImmutableArray<BandModel> bands = Between(scan.Nm[0], scan.Nm[^1]);
        return [.. panels.Select((panel, i) => panel with { Bands = i == 0 ? bands : [.. bands.Select(band => band with { Label = "" })] })];
    }

    /// <summary>Those that the range covers, cut to it; one too narrow for its name keeps its place without it.</summary>
    public static ImmutableArray<BandModel> Between(double fromNm, double toNm) =>
    [
        .. All
            .Select(band => band with { From = Math.Max(band.From, fromNm), To = Math.Min(band.To, toNm) })
            .Where(band => band.To - band.From > LeastShownNm)
            .Select(band => (band.To - band.From) / (toNm - fromNm) >= LeastNamedShare ? band : band with { Label = "" }),
    ];
}
