using ClearView.Plotting.Model;

using ScottPlot;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>Cells of a heat map.</summary>
internal sealed class CellPlot(IReadOnlyList<CellModel> cells) : IPlottable
{
    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        foreach (CellModel cell in cells)
        {
            Pixel lower = Axes.GetPixel(new Coordinates(cell.Area.FromX, cell.Area.FromY));
            Pixel upper = Axes.GetPixel(new Coordinates(cell.Area.ToX, cell.Area.ToY));
            AreaPainter.Cell(rp.Canvas, new SKRect(lower.X, upper.Y, upper.X, lower.Y), cell.ScaleFraction);
        }
    }
}
