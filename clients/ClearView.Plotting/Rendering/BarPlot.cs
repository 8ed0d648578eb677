using ClearView.Plotting.Model;

using ScottPlot;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>Filled rectangles.</summary>
internal sealed class BarPlot(IReadOnlyList<BarModel> bars, SeriesLook look) : IPlottable
{
    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        foreach (BarModel bar in bars)
        {
            Pixel lower = Axes.GetPixel(new Coordinates(bar.FromX, bar.FromY));
            Pixel upper = Axes.GetPixel(new Coordinates(bar.ToX, bar.ToY));
            AreaPainter.Rectangle(rp.Canvas, new SKRect(lower.X, upper.Y, upper.X, lower.Y), look);
        }
    }
}
