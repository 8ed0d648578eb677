using System.Collections.Immutable;
using System.Globalization;

using ClearView.Optics.Colorimetry;
using ClearView.Plotting.Model;

namespace ClearView.Plotting.Charts;

/// <summary>The spectral locus of an observer as series and words.</summary>
internal static class LocusModel
{
    private const int LeftSideToNm = 515;
    private const int TopToNm = 525;

    private static readonly ImmutableArray<int> NamedNm =
        [380, 460, 470, 480, 490, 500, 510, 520, 530, 540, 550, 560, 570, 580, 600, 700];

    public static ImmutableArray<SeriesModel> Series(Observer observer)
    {
        ImmutableArray<Chromaticity> locus = observer.Locus.Points;
        return
        [
            new SeriesModel
            {
                Label = "spectral locus",
                Look = new(LineKind.Solid, MarkKind.None, Ink.Black),
                Points = [.. locus.Select(Point)],
            },
            new SeriesModel
            {
                Label = "purple line",
                Look = new(LineKind.Dashed, MarkKind.None, Ink.Purple),
                Points = [Point(locus[^1]), Point(locus[0])],
            },
            new SeriesModel
            {
                Label = "wavelengths (nm)",
                Look = new(LineKind.None, MarkKind.FilledCircle, Ink.Black) { MarkSize = 4 },
                Points = [.. NamedNm.Select(nm => Point(At(locus, nm)))],
                InLegend = false,
            },
        ];
    }

    public static ImmutableArray<AnnotationModel> Names(Observer observer) =>
    [
        .. NamedNm.Select(nm =>
        {
            Chromaticity at = At(observer.Locus.Points, nm);
            string text = nm == NamedNm[0] ? $"{nm} nm" : nm.ToString(CultureInfo.InvariantCulture);
            AnnotationAnchor side = nm == NamedNm[0] ? AnnotationAnchor.Beneath : nm < LeftSideToNm ? AnnotationAnchor.Left : nm < TopToNm ? AnnotationAnchor.Above : AnnotationAnchor.Right;
            return new AnnotationModel(at.X, at.Y, text, side) { Transparent = true };
        }),
    ];

    public static ChartPoint Point(Chromaticity at) => new(at.X, at.Y);

    private static Chromaticity At(ImmutableArray<Chromaticity> locus, int nm) => locus[nm - SpectralLocus.FirstNm];
}
