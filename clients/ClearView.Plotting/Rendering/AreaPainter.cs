using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>Fills areas in the pattern of their look.</summary>
/// <remarks>Strokes of a hatching are cut as geometry, as dashes are: the pattern must survive in every format.</remarks>
internal static class AreaPainter
{
    private const byte LightAlpha = 46;
    private const float EdgePt = 0.8f;
    private const float HatchGapPt = 5;
    private const float HatchStrokePt = 1.1f;
    private const float DotRadiusPt = 0.8f;
    private const float CellOverlapPt = 0.2f;

    public static void Rectangle(SKCanvas canvas, SKRect area, SeriesLook look)
    {
        if (look.Fill is FillKind.Light or FillKind.Solid)
        {
            using SKPaint fill = Fill(look);
            canvas.DrawRect(area, fill);
        }

        if (look.Fill == FillKind.Hatched)
        {
            using SKPaint stroke = Stroke(look, HatchStrokePt);
            foreach ((SKPoint from, SKPoint to) in Hatching(area, HatchGapPt))
            {
                canvas.DrawLine(from, to, stroke);
            }
        }

        if (look.Fill == FillKind.Dotted)
        {
            Dots(canvas, area, look);
        }

        using SKPaint edge = Stroke(look, EdgePt);
        canvas.DrawRect(area, edge);
    }

    /// <summary>A cell of a heat map, without an edge and just large enough to leave no gap to its neighbours.</summary>
    public static void Cell(SKCanvas canvas, SKRect area, double scaleFraction)
    {
        using var fill = new SKPaint { Style = SKPaintStyle.Fill, Color = ColourScale.At(scaleFraction).ToSKColor(), IsAntialias = false };
        area.Inflate(CellOverlapPt, CellOverlapPt);
        canvas.DrawRect(area, fill);
    }

    /// <summary>A band between two lines of equally many points: a light fill with both lines as its edges.</summary>
    public static void Ribbon(SKCanvas canvas, IReadOnlyList<Pixel> lower, IReadOnlyList<Pixel> upper, SeriesLook look)
    {
        using var area = new SKPath();
        area.AddPoly([.. lower.Concat(upper.Reverse()).Select(pixel => new SKPoint(pixel.X, pixel.Y))], close: true);
        using SKPaint fill = Fill(look);
        canvas.DrawPath(area, fill);
        SeriesLook edge = look with { Line = LineKind.Solid, LineWidth = EdgePt };
        StrokePainter.Stroke(canvas, lower, edge);
        StrokePainter.Stroke(canvas, upper, edge);
    }

    /// <summary>Slanting strokes that fill a rectangle, each cut at its edges.</summary>
    internal static IEnumerable<(SKPoint From, SKPoint To)> Hatching(SKRect area, float gap)
    {
        // A stroke runs up to the right at 45°: x + y = sum.
        for (float sum = area.Left + area.Top + gap; sum < area.Right + area.Bottom; sum += gap)
        {
            float fromX = Math.Max(area.Left, sum - area.Bottom);
            float toX = Math.Min(area.Right, sum - area.Top);
            if (toX > fromX)
            {
                yield return (new SKPoint(fromX, sum - fromX), new SKPoint(toX, sum - toX));
            }
        }
    }

    /// <summary>Dots on white, on one raster for all areas, so that neighbours join.</summary>
    private static void Dots(SKCanvas canvas, SKRect area, SeriesLook look)
    {
        using var paper = new SKPaint { Style = SKPaintStyle.Fill, Color = ReportTheme.Paper.ToSKColor() };
        canvas.DrawRect(area, paper);
        using SKPaint dot = Fill(look);
        for (float x = MathF.Ceiling(area.Left / HatchGapPt) * HatchGapPt; x < area.Right; x += HatchGapPt)
        {
            for (float y = MathF.Ceiling(area.Top / HatchGapPt) * HatchGapPt; y < area.Bottom; y += HatchGapPt)
            {
                canvas.DrawCircle(x, y, DotRadiusPt, dot);
            }
        }
    }

    private static SKPaint Fill(SeriesLook look)
    {
        SKColor colour = ReportTheme.Of(look.Ink).ToSKColor();
        return new SKPaint
        {
            Style = SKPaintStyle.Fill,
            Color = look.Fill == FillKind.Light ? colour.WithAlpha(LightAlpha) : colour,
            IsAntialias = true,
        };
    }

    private static SKPaint Stroke(SeriesLook look, float width) => new()
    {
        Style = SKPaintStyle.Stroke,
        StrokeWidth = width,
        Color = ReportTheme.Of(look.Ink).ToSKColor(),
        IsAntialias = true,
    };
}
