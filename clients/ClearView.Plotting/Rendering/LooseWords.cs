using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;

namespace ClearView.Plotting.Rendering;

/// <summary>Words that move to a free place near their points.</summary>
/// <param name="words">The words.</param>
/// <param name="series">Marks and lines that they should rather not cover.</param>
internal sealed class LooseWords(IReadOnlyList<AnnotationModel> words, IReadOnlyList<SeriesModel> series) : IPlottable
{
    private const float PaddingPt = 2;
    private const float FarPt = 14;
    private const float LineStepPt = 8;
    private const double LargeMarkPt = 8;
    private const int LargeMarkWeight = 10;

    private static readonly SeriesLook LeaderLook = new(LineKind.Solid, MarkKind.None, Ink.Grey) { LineWidth = 0.7 };

    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        Pixel[] points = [.. words.Select(word => Axes.GetPixel(new Coordinates(word.X, word.Y)))];
        float height = ReportTheme.AnnotationPt + (2 * PaddingPt);
        PixelRect?[] places = LabelPlacer.Place(
            [.. words.Select((word, i) => (points[i], TextPainter.Measure(word.Text, ReportTheme.AnnotationPt, word.Bold) + (2 * PaddingPt), height))],
            rp.DataRect,
            [],
            [.. Marks(), .. Lines()]);
        var text = new TextPainter(rp.Canvas);
        using var paper = new SkiaSharp.SKPaint { Color = ReportTheme.Paper.WithAlpha(0.8).ToSKColor() };
        for (int i = 0; i < words.Count; i++)
        {
            if (places[i] is not { } place)
            {
                continue;
            }

            Pixel nearest = new(Math.Clamp(points[i].X, place.Left, place.Right), Math.Clamp(points[i].Y, place.Top, place.Bottom));
            if (Math.Abs(nearest.X - points[i].X) + Math.Abs(nearest.Y - points[i].Y) > FarPt)
            {
                StrokePainter.Stroke(rp.Canvas, [points[i], nearest], LeaderLook);
            }

            rp.Canvas.DrawRect(place.Left, place.Top, place.Width, place.Height, paper);
            text.Draw(words[i].Text, place.Left + PaddingPt, place.Bottom - PaddingPt - 2, ReportTheme.AnnotationPt, ReportTheme.Text, words[i].Bold);
        }
    }

    /// <summary>The marks; a large one, which says something, counts several times.</summary>
    private IEnumerable<Pixel> Marks() => series.Where(one => one.Look.Mark != MarkKind.None)
        .SelectMany(one => SeriesPlot.Marked(one).Select(Axes.GetPixel)
            .SelectMany(at => Enumerable.Repeat(new Pixel(at.X, at.Y - (float)one.MarkRisePt), one.Look.MarkSize >= LargeMarkPt ? LargeMarkWeight : 1)));

    /// <summary>Points along the lines, close enough for no words to slip between.</summary>
    private IEnumerable<Pixel> Lines()
    {
        foreach (Coordinates[] run in series.Where(one => one.Look.Line != LineKind.None).SelectMany(SeriesPlot.Runs))
        {
            for (int i = 1; i < run.Length; i++)
            {
                (Pixel from, Pixel to) = (Axes.GetPixel(run[i - 1]), Axes.GetPixel(run[i]));
                int steps = 1 + (int)((Math.Abs(to.X - from.X) + Math.Abs(to.Y - from.Y)) / LineStepPt);
                for (int step = 0; step < steps; step++)
                {
                    float share = (float)step / steps;
                    yield return new Pixel(from.X + (share * (to.X - from.X)), from.Y + (share * (to.Y - from.Y)));
                }
            }
        }
    }
}
