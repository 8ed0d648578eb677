using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;

namespace ClearView.Plotting.Rendering;

/// <summary>From looks to the styles of the drawing library.</summary>
internal static class Styles
{
    private const float StrokePt = 1.4f;
    private const float CrossStrokePt = 2;
    private const double StrokeShapeGrowth = 1.35;

    public static MarkerStyle Marker(SeriesLook look)
    {
        Color colour = ReportTheme.Of(look.Ink);
        // Shapes of bare strokes look smaller than closed ones of the same size.
        double size = look.Mark is MarkKind.Star or MarkKind.Cross ? look.MarkSize * StrokeShapeGrowth : look.MarkSize;
        return new MarkerStyle(ReportTheme.Of(look.Mark), (float)size, colour)
        {
            LineWidth = look.Mark == MarkKind.DiagonalCross ? CrossStrokePt : StrokePt,
            LineColor = colour,
            OutlineColor = colour,
            OutlineWidth = StrokePt,
        };
    }

    public static void Text(LabelStyle label, float size, Color colour, bool bold = false)
    {
        label.FontName = ChartFont.Family;
        label.FontSize = size;
        label.ForeColor = colour;
        label.Bold = bold;
    }
}
