using System.Collections.Immutable;

using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>Draws a chart: title, legend, panels, notes, foot, from top to bottom.</summary>
internal static class ChartPainter
{
    private const float SideAxisPt = 58;
    private const float LeftLabelPaddingPt = 34;
    private const float PlainRightPt = 14;
    private const float BlockGapPt = 5;
    private const float RightLabelPaddingPt = 14;
    private const float BandsGapPt = 4;
    private const float BandsRisePt = 6.5f;

    public static void Draw(SKCanvas canvas, ChartModel chart)
    {
        canvas.Clear(ReportTheme.Paper.ToSKColor());
        var text = new TextPainter(canvas);
        float left = ReportTheme.MarginPt;
        float width = ReportTheme.WidthPt - (2 * ReportTheme.MarginPt);

        float top = DrawLines(text, [chart.Title], ReportTheme.TitlePt, ReportTheme.Text, left, ReportTheme.MarginPt - 4, width, bold: true);
        if (chart.Subtitle.Length > 0)
        {
            top = DrawLines(text, [chart.Subtitle], ReportTheme.SubtitlePt, ReportTheme.QuietText, left, top, width);
        }

        var legend = new LegendPainter(chart.LegendSeries, width);
        top += BlockGapPt;
        legend.Draw(canvas, left, top);
        top += legend.Height + BlockGapPt;

        float notesHeight = Height(chart.Notes, width) + Height(chart.Footer, width);
        float bottom = chart.HeightPt - ReportTheme.MarginPt + 6 - notesHeight;
        float foot = DrawLines(text, chart.Notes, ReportTheme.NotePt, ReportTheme.Text, left, bottom, width, bold: true);
        DrawLines(text, chart.Footer, ReportTheme.NotePt, ReportTheme.QuietText, left, foot, width);

        DrawPanels(canvas, chart, new PixelRect(left, left + width, bottom - BlockGapPt, top));
    }

    /// <summary>Height that title, legend, notes and foot of a chart take, points.</summary>
    internal static float RoomOutsidePanels(ChartModel chart)
    {
        float width = ReportTheme.WidthPt - (2 * ReportTheme.MarginPt);
        float head = ReportTheme.MarginPt - 4 + TextPainter.LineHeight(ReportTheme.TitlePt)
            + (chart.Subtitle.Length > 0 ? TextPainter.LineHeight(ReportTheme.SubtitlePt) : 0);
        return head + new LegendPainter(chart.LegendSeries, width).Height + (3 * BlockGapPt)
            + Height(chart.Notes, width) + Height(chart.Footer, width) + ReportTheme.MarginPt - 6;
    }

    private static void DrawPanels(SKCanvas canvas, ChartModel chart, PixelRect area)
    {
        double total = chart.Panels.Sum(panel => panel.Weight);
        double before = 0;
        foreach (PanelModel panel in chart.Panels)
        {
            float from = (float)(before / total);
            before += panel.Weight;
            float to = (float)(before / total);
            bool beneath = chart.Arrangement == PanelArrangement.Beneath;
            PixelRect rect = beneath
                ? new PixelRect(area.Left, area.Right, area.Top + (to * area.Height), area.Top + (from * area.Height))
                : new PixelRect(area.Left + (from * area.Width), area.Left + (to * area.Width), area.Bottom, area.Top);
            using Plot plot = PanelPlot.Create(panel, beneath ? (LeftWidth(chart), RightWidth(chart)) : null);
            plot.RenderManager.ClearCanvasBeforeEachRender = false;
            plot.Render(canvas, rect);
            NameBands(canvas, panel, plot.RenderManager.LastRender.DataRect);
        }
    }

    /// <summary>What the bands are, at the height of their names, left of the first.</summary>
    private static void NameBands(SKCanvas canvas, PanelModel panel, PixelRect data)
    {
        if (panel.BandsLabel.Length > 0)
        {
            float width = TextPainter.Measure(panel.BandsLabel, ReportTheme.TickLabelPt);
            new TextPainter(canvas).Draw(
                panel.BandsLabel, data.Left - width - BandsGapPt, data.Top - BandsRisePt, ReportTheme.TickLabelPt, ReportTheme.QuietText);
        }
    }

    /// <summary>Room for numbers, or for the widest of the names that an axis prints instead.</summary>
    private static float LeftWidth(ChartModel chart)
    {
        float widest = chart.Panels
            .SelectMany(panel => panel.Y.Ticks)
            .Select(tick => TextPainter.Measure(tick.Label, ReportTheme.TickLabelPt))
            .DefaultIfEmpty(0)
            .Max();
        return Math.Max(SideAxisPt, widest + LeftLabelPaddingPt);
    }

    private static float RightWidth(ChartModel chart)
    {
        float widest = chart.Panels
            .SelectMany(panel => panel.ReferenceLines)
            .Where(line => line.Orientation == LineOrientation.Horizontal)
            .Select(line => TextPainter.Measure(line.Label, ReportTheme.TickLabelPt))
            .DefaultIfEmpty(0)
            .Max();
        return widest > 0 ? widest + RightLabelPaddingPt : PlainRightPt;
    }

    private static float Height(ImmutableArray<string> lines, float width) =>
        lines.Sum(line => TextPainter.Wrap(line, ReportTheme.NotePt, width, bold: true).Count)
        * TextPainter.LineHeight(ReportTheme.NotePt);

    private static float DrawLines(
        TextPainter text, ImmutableArray<string> lines, float size, Color colour, float left, float top, float width, bool bold = false)
    {
        foreach (string line in lines.SelectMany(line => TextPainter.WrapEvenly(line, size, width, bold)))
        {
            text.Draw(line, left, top + size, size, colour, bold);
            top += TextPainter.LineHeight(size);
        }

        return top;
    }
}
