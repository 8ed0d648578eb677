using ClearView.Plotting.Model;

using ScottPlot;

namespace ClearView.Plotting.Rendering;

/// <summary>Thin lines with end caps.</summary>
internal sealed class WhiskerPlot(IReadOnlyList<WhiskerModel> whiskers, SeriesLook look) : IPlottable
{
    public const float CapPt = 3;

    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        foreach (WhiskerModel whisker in whiskers)
        {
            bool vertical = whisker.Orientation == LineOrientation.Vertical;
            Pixel low = Axes.GetPixel(vertical ? new Coordinates(whisker.At, whisker.Low) : new Coordinates(whisker.Low, whisker.At));
            Pixel high = Axes.GetPixel(vertical ? new Coordinates(whisker.At, whisker.High) : new Coordinates(whisker.High, whisker.At));
            Draw(rp.Canvas, low, high, look);
        }
    }

    /// <summary>One line with its caps across.</summary>
    public static void Draw(SkiaSharp.SKCanvas canvas, Pixel low, Pixel high, SeriesLook look)
    {
        bool vertical = Math.Abs(high.Y - low.Y) >= Math.Abs(high.X - low.X);
        (float across, float along) = vertical ? (CapPt, 0f) : (0f, CapPt);
        StrokePainter.Stroke(canvas, [low, high], look);
        foreach (Pixel end in new[] { low, high })
        {
            StrokePainter.Stroke(canvas, [new Pixel(end.X - across, end.Y - along), new Pixel(end.X + across, end.Y + along)], look);
        }
    }
}
