using ClearView.Plotting.Model;

using ScottPlot;

namespace ClearView.Plotting.Rendering;

/// <summary>A polyline in the pattern of its look.</summary>
internal sealed class PatternLine(IReadOnlyList<Coordinates> points, SeriesLook look) : IPlottable
{
    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp) => StrokePainter.Stroke(rp.Canvas, [.. points.Select(Axes.GetPixel)], look);
}
