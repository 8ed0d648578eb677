using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>From a chart to a picture.</summary>
public static class ChartRenderer
{
    /// <summary>Width of a PNG, pixels.</summary>
    public const int PngWidthPx = (int)(ReportTheme.WidthPt * ReportTheme.Scale);

    // One filter instead of trying all of them: a fifth of the time, and flat areas compress well anyhow.
    private static readonly SKPngEncoderOptions PngOptions = new(SKPngEncoderFilterFlags.Sub, 6);

    /// <summary>Height of a chart's PNG, pixels.</summary>
    public static int PngHeightPx(ChartModel chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        return (int)(chart.HeightPt * ReportTheme.Scale);
    }

    /// <summary>Draws the chart as PNG, <see cref="PngWidthPx"/> pixels wide and <see cref="PngHeightPx"/> high.</summary>
    public static byte[] ToPng(ChartModel chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        using var surface = SKSurface.Create(new SKImageInfo(PngWidthPx, PngHeightPx(chart)));
        surface.Canvas.Scale(ReportTheme.Scale);
        ChartPainter.Draw(surface.Canvas, chart);
        using SKPixmap pixels = surface.PeekPixels();
        using SKData data = pixels.Encode(PngOptions) ?? throw new InvalidOperationException("The picture could not be encoded as PNG.");
        return data.ToArray();
    }

    /// <summary>Draws the chart as SVG: lines, marks and text, no embedded picture.</summary>
    public static byte[] ToSvg(ChartModel chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        using var stream = new MemoryStream();
        using (SKCanvas canvas = SKSvgCanvas.Create(new SKRect(0, 0, ReportTheme.WidthPt, chart.HeightPt), stream))
        {
            ChartPainter.Draw(canvas, chart);
        }

        stream.Position = 0;
        return SvgText.Settle(stream, chart);
    }

    /// <summary>Draws the chart as a PDF of one page: lines, marks and text with its font, no embedded picture.</summary>
    public static byte[] ToPdf(ChartModel chart)
    {
        ArgumentNullException.ThrowIfNull(chart);
        using var stream = new MemoryStream();
        // No times in it: the same chart gives the same bytes.
        var about = new SKDocumentPdfMetadata { Title = chart.Title, Subject = chart.Subtitle };
        using (var document = SKDocument.CreatePdf(stream, about))
        {
            ChartPainter.Draw(document.BeginPage(ReportTheme.WidthPt, chart.HeightPt), chart);
            document.EndPage();
            document.Close();
        }

        return stream.ToArray();
    }
}
