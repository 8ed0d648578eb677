using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>The box of figures beside the panels: what each is at the left, the figure at the right.</summary>
internal sealed class FigureBox
{
    private const float RowPt = 17;
    private const float PaddingPt = 8;
    private const float BetweenPt = 12;
    private const float EdgePt = 0.8f;

    private readonly IReadOnlyList<FigureModel> _figures;

    public FigureBox(IReadOnlyList<FigureModel> figures)
    {
        _figures = figures;
        Width = figures.Count == 0 ? 0 : figures.Max(Needed) + (2 * PaddingPt);
    }

    /// <summary>Width, points; 0 without figures.</summary>
    public float Width { get; }

    /// <summary>Height, points.</summary>
    public float Height => (_figures.Count * RowPt) + (2 * PaddingPt);

    public void Draw(SKCanvas canvas, float left, float top)
    {
        if (_figures.Count == 0)
        {
            return;
        }

        using var edge = new SKPaint { Style = SKPaintStyle.Stroke, StrokeWidth = EdgePt, Color = ReportTheme.Frame.ToSKColor(), IsAntialias = true };
        canvas.DrawRect(left, top, Width, Height, edge);
        var text = new TextPainter(canvas);
        float baseline = top + PaddingPt + ReportTheme.LegendPt;
        foreach (FigureModel figure in _figures)
        {
            text.Draw(figure.Label, left + PaddingPt, baseline, ReportTheme.LegendPt, ReportTheme.Text, bold: figure.Value.Length == 0);
            float width = TextPainter.Measure(figure.Value, ReportTheme.LegendPt);
            text.Draw(figure.Value, left + Width - PaddingPt - width, baseline, ReportTheme.LegendPt, ReportTheme.Text);
            baseline += RowPt;
        }
    }

    private static float Needed(FigureModel figure) =>
        TextPainter.Measure(figure.Label, ReportTheme.LegendPt, bold: figure.Value.Length == 0)
        + (figure.Value.Length == 0 ? 0 : BetweenPt + TextPainter.Measure(figure.Value, ReportTheme.LegendPt));
}
