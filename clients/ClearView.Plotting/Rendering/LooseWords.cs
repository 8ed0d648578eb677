using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;

namespace ClearView.Plotting.Rendering;

/// <summary>Words that move to a free place near their points.</summary>
/// <param name="words">The words.</param>
/// <param name="marks">Points that they should rather not cover.</param>
internal sealed class LooseWords(IReadOnlyList<AnnotationModel> words, IReadOnlyList<Coordinates> marks) : IPlottable
{
    private const float PaddingPt = 2;
    private const float FarPt = 14;

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
            [.. marks.Select(Axes.GetPixel)]);
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
}
