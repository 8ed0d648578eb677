using ClearView.Plotting.Model;

using ScottPlot;

namespace ClearView.Plotting.Rendering;

/// <summary>A filled band without gaps.</summary>
internal sealed class RibbonPlot(IReadOnlyList<RangeModel> slices, SeriesLook look) : IPlottable
{
    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp) => AreaPainter.Ribbon(
        rp.Canvas,
        [.. slices.Select(slice => Axes.GetPixel(new Coordinates(slice.X, slice.Low)))],
        [.. slices.Select(slice => Axes.GetPixel(new Coordinates(slice.X, slice.High)))],
        look);
}
