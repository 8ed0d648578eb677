using ClearView.Plotting.Model;

using ScottPlot;

namespace ClearView.Plotting.Rendering;

/// <summary>Marks drawn some way above their points.</summary>
internal sealed class RaisedMarks(IReadOnlyList<Coordinates> points, SeriesLook look, float risePt) : IPlottable
{
    public bool IsVisible { get; set; } = true;

    public IAxes Axes { get; set; } = new Axes();

    public IEnumerable<LegendItem> LegendItems => [];

    public AxisLimits GetAxisLimits() => AxisLimits.NoLimits;

    public void Render(RenderPack rp)
    {
        using Paint paint = Paint.NewDisposablePaint();
        MarkerStyle style = Styles.Marker(look);
        foreach (Coordinates point in points)
        {
            Pixel at = Axes.GetPixel(point);
            style.Render(rp.Canvas, new Pixel(at.X, at.Y - risePt), paint);
        }
    }
}
