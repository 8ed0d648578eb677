using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using LightAndObserver = ClearView.Optics.Colorimetry.LightAndObserver;

namespace ClearView.Plotting.Charts;

/// <summary>
/// The x, y diagram with spectral locus, purple line and white point, and the neighbourhood of the specimens enlarged
/// beside it: films are nearly neutral.
/// </summary>
/// <remarks>The line to the dominant (for purples the complementary) wavelength is drawn for the most saturated reading of each of two groups, of all readings where there are more groups.</remarks>
public static class ChromaticityChart
{
    private const double LeastZoomSpan = 0.004;

    private static readonly SeriesLook WhiteLook = new(LineKind.None, MarkKind.CrossedCircle, Ink.Black) { MarkSize = 11 };

    private static readonly ImmutableArray<SeriesLook> LineLooks =
    [
        new(LineKind.DashDotted, MarkKind.None, Ink.Vermilion),
        new(LineKind.Dotted, MarkKind.None, Ink.Blue) { LineWidth = 1.8 },
    ];

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="readings">The readings.</param>
    /// <exception cref="ChartRefusedException">There is no reading, none has a colour, or they hold for different lights.</exception>
    public static ChartModel Build(IReadOnlyList<ChartReading> readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        ChartReading[] coloured = ColourBasis.Require(readings, Measurands.ChromaticityX);
        LightAndObserver light = ColourLight.Of(coloured[0].Find(Measurands.ChromaticityX.Id)!);
        // One shape fewer than there are: the crossed circle is the white point's.
        ImmutableArray<ReadingGroup> groups = ReadingGroup.Split(coloured, SeriesLooks.MarkCount - 1);
        ImmutableArray<DominantLine> lines = DominantLine.MostSaturated(groups, light, groups.Length <= LineLooks.Length ? LineLooks.Length : 1);
        return new ChartModel
        {
            Title = "Chromaticity of the transmitted light",
            Subtitle = ColourBasis.Subtitle(coloured),
            Arrangement = PanelArrangement.Beside,
            Panels = [WholePanel(groups, lines, light), ZoomPanel(groups, lines, light)],
            Notes = [.. ColourBasis.MissingNote(readings.Count, coloured.Length), .. ChartNotes.Of(coloured, Measurands.ChromaticityX.Id)],
            Footer = [ColourBasis.Footer(coloured, Measurands.ChromaticityX), Wording.Source(coloured)],
        };
    }

    private static PanelModel WholePanel(ImmutableArray<ReadingGroup> groups, ImmutableArray<DominantLine> lines, LightAndObserver light) => new()
    {
        Heading = "whole diagram",
        X = new AxisModel("Chromaticity x", -0.08, 0.82),
        Y = new AxisModel("Chromaticity y", -0.08, 0.9),
        EqualScale = true,
        Series = [.. LocusModel.Series(light.Observer), .. Lines(lines), .. Groups(groups, 6), White(light)],
        Annotations = LocusModel.Names(light.Observer),
    };

    private static PanelModel ZoomPanel(ImmutableArray<ReadingGroup> groups, ImmutableArray<DominantLine> lines, LightAndObserver light)
    {
        Chromaticity white = WhitePoint.Of(light).ToChromaticity();
        ImmutableArray<SeriesModel> marks = [.. Groups(groups, groups.Sum(group => group.Readings.Length) > 40 ? 6 : 9)];
        ChartPoint[] points = [.. marks.SelectMany(series => series.Points)];
        (double left, double right) = AxisRange.Around(points.Select(p => p.X).Append(white.X), LeastZoomSpan);
        (double bottom, double top) = AxisRange.Around(points.Select(p => p.Y).Append(white.Y), LeastZoomSpan);
        return new PanelModel
        {
            Heading = "white point and specimens enlarged",
            X = new AxisModel("Chromaticity x", left, right),
            Y = new AxisModel("Chromaticity y", bottom, top),
            EqualScale = true,
            Series = [.. Lines(lines), .. marks, White(light)],
        };
    }

    private static IEnumerable<SeriesModel> Lines(ImmutableArray<DominantLine> lines)
    {
        // Two products may hold specimens of the same name; the legend names each line.
        bool alike = lines.Select(line => line.Name).Distinct(StringComparer.Ordinal).Count() < lines.Length;
        return lines.Select((line, index) => new SeriesModel
        {
            Label = alike ? $"{line.Name}, {line.Group}" : line.Name,
            Look = LineLooks[index],
            Points = line.Points,
        });
    }

    private static IEnumerable<SeriesModel> Groups(ImmutableArray<ReadingGroup> groups, double size) => groups.Select((group, index) => new SeriesModel
    {
        Label = group.Label,
        Look = SeriesLooks.Marks(index) with { MarkSize = size },
        Points =
        [
            .. group.Readings.Select(reading => new ChartPoint(
                ColourBasis.Number(reading, Measurands.ChromaticityX), ColourBasis.Number(reading, Measurands.ChromaticityY))),
        ],
    });

    private static SeriesModel White(LightAndObserver light) => new()
    {
        Label = $"white point {light}",
        Look = WhiteLook,
        Points = [LocusModel.Point(WhitePoint.Of(light).ToChromaticity())],
    };
}
