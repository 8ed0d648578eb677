using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;

namespace ClearView.Plotting.Rendering;

/// <summary>From looks to the styles of the drawing library.</summary>
internal static class Styles
{
    private const float StrokePt = 1.4f;
    private const float CrossStrokePt = 2;

    public static MarkerStyle Marker(SeriesLook look)
    {
        Color colour = ReportTheme.Of(look.Ink);
        return new MarkerStyle(ReportTheme.Of(look.Mark), (float)look.MarkSize, colour)
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
