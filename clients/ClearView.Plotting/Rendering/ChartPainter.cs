using System.Collections.Immutable;

using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;

using SkiaSharp;

namespace ClearView.Plotting.Rendering;

/// <summary>Draws a chart: title, legend, panels, notes, foot, from top to bottom.</summary>
internal static class ChartPainter
{
    private const float BlockGapPt = 5;
    private const float FigureGapPt = 8;
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

        var box = new FigureBox(chart.Figures);
        float boxRoom = box.Width > 0 ? box.Width + FigureGapPt : 0;
        DrawPanels(canvas, chart, new PixelRect(left, left + width - boxRoom, bottom - BlockGapPt, top));
        box.Draw(canvas, left + width - box.Width, top + BlockGapPt);
    }

    /// <summary>Height that title, legend, notes and foot of a chart take, points.</summary>
    internal static float RoomOutsidePanels(ChartModel chart)
    {
        float width = ReportTheme.WidthPt - (2 * ReportTheme.MarginPt);
        float head = ReportTheme.MarginPt - 4 + Height([chart.Title], width, ReportTheme.TitlePt)
            + (chart.Subtitle.Length > 0 ? Height([chart.Subtitle], width, ReportTheme.SubtitlePt, bold: false) : 0);
        return head + new LegendPainter(chart.LegendSeries, width).Height + (3 * BlockGapPt)
            + Height(chart.Notes, width) + Height(chart.Footer, width) + ReportTheme.MarginPt - 6;
    }

    private static void DrawPanels(SKCanvas canvas, ChartModel chart, PixelRect area)
    {
        foreach ((PanelModel panel, PixelRect rect, PanelRoom room) in PanelLayout.Of(chart, area))
        {
            using Plot plot = PanelPlot.Create(panel, room);
            plot.RenderManager.ClearCanvasBeforeEachRender = false;
            plot.Render(canvas, rect);
            PixelRect data = plot.RenderManager.LastRender.DataRect;
            NameBands(canvas, panel, data);
            EdgeNames.Draw(canvas, panel, data);
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

    private static float Height(ImmutableArray<string> lines, float width, float size = ReportTheme.NotePt, bool bold = true) =>
        lines.Sum(line => TextPainter.Wrap(line, size, width, bold).Count) * TextPainter.LineHeight(size);

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
