using System.Collections.Immutable;

using ClearView.Optics.Transmission.Bands;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;
using ClearView.Plotting.Theme;

namespace ClearView.Plotting.Charts;

/// <summary>The named bands, and the method's own, as labelled bars in a strip above the spectra.</summary>
/// <remarks>Bands overlap (UV-A and visible, visible and photosynthetic), so that they stand in rows; own bands are hatched and shaded below too.</remarks>
internal static class BandStrip
{
    private const float RowPt = 19;
    private const float StripEdgesPt = 22;
    private const float PanelWidthPt = 690;
    private const float LabelGapPt = 10;
    private const double BarHeight = 0.8;

    // One that lies outside the axis: no tick at all would mean those of round numbers.
    private static readonly ImmutableArray<AxisTick> NoTicks = [new(-1, "")];

    private static readonly SeriesLook NamedLook = new(LineKind.None, MarkKind.None, Ink.Grey) { Fill = FillKind.Light };
    private static readonly SeriesLook OwnLook = new(LineKind.None, MarkKind.None, Ink.Ochre) { Fill = FillKind.Hatched };
    private static readonly SeriesLook OwnShade = new(LineKind.None, MarkKind.None, Ink.Ochre) { Fill = FillKind.Light };
    private static readonly SeriesLook BoundaryLook = new(LineKind.Dotted, MarkKind.None, Ink.Grey) { LineWidth = 0.8 };

    /// <summary>Puts the strip above the panels of a chart and makes the chart as much higher.</summary>
    public static ChartModel Above(ChartModel chart, SpectralScan scan)
    {
        (double from, double to) = (scan.Nm[0], scan.Nm[^1]);
        PlacedBand[] bands = Place(Within(scan.Reading.Evaluation.Method, from, to), (to - from) / PanelWidthPt);
        if (bands.Length == 0)
        {
            return chart;
        }

        int rows = bands.Max(band => band.Row) + 1;
        float stripPt = StripEdgesPt + (rows * RowPt);
        double spectraPt = chart.HeightPt - ChartPainter.RoomOutsidePanels(chart);
        double weight = stripPt / spectraPt * chart.Panels.Sum(panel => panel.Weight);
        return chart with
        {
            HeightPt = chart.HeightPt + stripPt,
            Panels = [Strip(bands, rows, from, to) with { Weight = weight }, .. chart.Panels.Select(panel => Mark(panel, bands, from, to))],
        };
    }

    private static IEnumerable<PlacedBand> Within(V1.Method? method, double from, double to)
    {
        IEnumerable<PlacedBand> named = Band.All.Select(band => new PlacedBand(
            band == Band.Photosynthetic ? "photosynthetic" : band.Name, band.Range.FromNm, band.Range.ToNm, false, 0, false));
        IEnumerable<PlacedBand> own = (method?.Bands ?? []).Select(band => new PlacedBand(
            $"own {Wording.Number(band.FromNm)}-{Wording.Number(band.ToNm)} nm", band.FromNm, band.ToNm, true, 0, false));
        return named.Concat(own)
            .Select(band => band with { From = Math.Max(band.From, from), To = Math.Min(band.To, to) })
            .Where(band => band.To > band.From);
    }

    /// <summary>Gives each band the first row with room for it and its name; a name that its bar cannot hold stands beside it.</summary>
    private static PlacedBand[] Place(IEnumerable<PlacedBand> bands, double nmPerPt)
    {
        var occupied = new List<List<(double From, double To)>>();
        var placed = new List<PlacedBand>();
        foreach (PlacedBand band in bands)
        {
            double needed = (TextPainter.Measure(band.Name, ReportTheme.AnnotationPt) + LabelGapPt) * nmPerPt;
            bool inside = needed <= band.To - band.From;
            (double From, double To) extent = (band.From, inside ? band.To : band.To + needed);
            int row = occupied.FindIndex(others => others.TrueForAll(other => extent.From >= other.To || extent.To <= other.From));
            if (row < 0)
            {
                row = occupied.Count;
                occupied.Add([]);
            }

            occupied[row].Add(extent);
            placed.Add(band with { Row = row, Inside = inside });
        }

        return [.. placed];
    }

    private static PanelModel Strip(PlacedBand[] bands, int rows, double from, double to) => new()
    {
        X = new AxisModel("", from, to) { ShowTickLabels = false },
        Y = new AxisModel("Bands", 0, rows) { ShowTickLabels = false, Ticks = NoTicks },
        Series =
        [
            Bars("named band", NamedLook, bands.Where(band => !band.IsOwn), rows),
            Bars("own band of the method", OwnLook, bands.Where(band => band.IsOwn), rows),
        ],
        Annotations = [.. bands.Select(band => Name(band, rows, from, to))],
    };

    private static SeriesModel Bars(string label, SeriesLook look, IEnumerable<PlacedBand> bands, int rows)
    {
        ImmutableArray<BarModel> bars =
            [.. bands.Select(band => new BarModel(band.From, band.To, Middle(band, rows) - (BarHeight / 2), Middle(band, rows) + (BarHeight / 2)))];
        return new SeriesModel { Label = label, Look = look, Points = [], Bars = bars, InLegend = false };
    }

    private static AnnotationModel Name(PlacedBand band, int rows, double from, double to)
    {
        double middle = Middle(band, rows);
        if (band.Inside)
        {
            return new((band.From + band.To) / 2, middle, band.Name, AnnotationAnchor.Centre) { Transparent = !band.IsOwn };
        }

        bool right = band.To + ((to - from) / 8) < to;
        return new(right ? band.To : band.From, middle, band.Name, right ? AnnotationAnchor.Right : AnnotationAnchor.Left) { Transparent = true };
    }

    private static double Middle(PlacedBand band, int rows) => rows - band.Row - 0.5;

    private static PanelModel Mark(PanelModel panel, PlacedBand[] bands, double from, double to)
    {
        SeriesModel[] shades = bands.Any(band => band.IsOwn)
            ?
            [
                new SeriesModel
                {
                    Label = "stretch of an own band",
                    Look = OwnShade,
                    Points = [],
                    Bars = [.. bands.Where(band => band.IsOwn).Select(band => new BarModel(band.From, band.To, panel.Y.Minimum, panel.Y.Maximum))],
                    InLegend = false,
                },
            ]
            : [];
        double[] limits = [.. bands.Where(band => !band.IsOwn).SelectMany(band => new[] { band.From, band.To }).Where(nm => nm > from && nm < to).Distinct()];
        return panel with
        {
            Series = [.. shades, .. panel.Series],
            ReferenceLines = [.. panel.ReferenceLines, .. limits.Select(nm => new ReferenceLineModel(LineOrientation.Vertical, nm, "", BoundaryLook))],
        };
    }

    private sealed record PlacedBand(string Name, double From, double To, bool IsOwn, int Row, bool Inside);
}
