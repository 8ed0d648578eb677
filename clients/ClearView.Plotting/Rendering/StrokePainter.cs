using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>Strokes a polyline in its pattern.</summary>
/// <remarks>Dashes are cut as geometry: the SVG canvas ignores dash effects, and a pattern must survive in every format.</remarks>
internal static class StrokePainter
{
    public static void Stroke(SKCanvas canvas, IReadOnlyList<Pixel> pixels, SeriesLook look)
    {
        if (look.Line == LineKind.None || pixels.Count < 2)
        {
            return;
        }

        using var path = new SKPath();
        path.MoveTo(pixels[0].X, pixels[0].Y);
        foreach (Pixel pixel in pixels.Skip(1))
        {
            path.LineTo(pixel.X, pixel.Y);
        }

        using var paint = new SKPaint
        {
            Style = SKPaintStyle.Stroke,
            StrokeWidth = (float)look.LineWidth,
            StrokeJoin = SKStrokeJoin.Round,
            Color = ReportTheme.Of(look.Ink).ToSKColor(),
            IsAntialias = true,
        };
        float[] intervals = ReportTheme.Dashes(look.Line);
        if (intervals.Length == 0)
        {
            canvas.DrawPath(path, paint);
            return;
        }

        using SKPath dashes = Cut(path, intervals);
        canvas.DrawPath(dashes, paint);
    }

    /// <summary>The stretches of a path that a pattern of drawn and skipped lengths leaves.</summary>
    internal static SKPath Cut(SKPath path, float[] intervals)
    {
        var dashes = new SKPath();
        using var measure = new SKPathMeasure(path);
        float at = 0;
        for (int i = 0; at < measure.Length; i = (i + 1) % intervals.Length)
        {
            float next = at + intervals[i];
            if (i % 2 == 0)
            {
                measure.GetSegment(at, Math.Min(next, measure.Length), dashes, true);
            }

            at = next;
        }

        return dashes;
    }
}
