using System.Text;

using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>From a chart to a picture.</summary>
public static class ChartRenderer
{
    /// <summary>Width of a PNG, pixels.</summary>
    public const int PngWidthPx = (int)(ReportTheme.WidthPt * ReportTheme.Scale);

    /// <summary>Height of a PNG, pixels.</summary>
    public const int PngHeightPx = (int)(ReportTheme.HeightPt * ReportTheme.Scale);

    private const string SvgFallback = ChartFont.Family + ", 'DejaVu Sans', Helvetica, Arial, sans-serif";

    /// <summary>Draws the chart as PNG, <see cref="PngWidthPx"/> × <see cref="PngHeightPx"/>.</summary>
    public static byte[] ToPng(ChartModel chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        using var surface = SKSurface.Create(new SKImageInfo(PngWidthPx, PngHeightPx));
        surface.Canvas.Scale(ReportTheme.Scale);
        ChartPainter.Draw(surface.Canvas, chart);
        using SKImage image = surface.Snapshot();
        using SKData data = image.Encode(SKEncodedImageFormat.Png, quality: 100);
        return data.ToArray();
    }

    /// <summary>Draws the chart as SVG: lines, marks and text, no embedded picture.</summary>
    public static byte[] ToSvg(ChartModel chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        using var stream = new MemoryStream();
        using (SKCanvas canvas = SKSvgCanvas.Create(new SKRect(0, 0, ReportTheme.WidthPt, ReportTheme.HeightPt), stream))
        {
            ChartPainter.Draw(canvas, chart);
        }

        // Every letter is placed by itself, so that another sans-serif font keeps the layout where Inter is missing.
        string svg = Encoding.UTF8.GetString(stream.ToArray())
            .Replace($"font-family=\"{ChartFont.Family}\"", $"font-family=\"{SvgFallback}\"", StringComparison.Ordinal);
        return Encoding.UTF8.GetBytes(svg);
    }
}
