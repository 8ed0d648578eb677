using System.Collections.Immutable;

using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;

namespace ClearView.Plotting.Rendering;

/// <summary>Where each panel of a chart stands, and the room around it that makes panels align.</summary>
internal static class PanelLayout
{
    private const float SideAxisPt = 58;
    private const float LeftLabelPaddingPt = 34;
    private const float PlainRightPt = 14;
    private const float RightLabelPaddingPt = 14;
    private const float BottomAxisPt = 46;

    public static IEnumerable<(PanelModel Panel, PixelRect Area, PanelRoom Room)> Of(ChartModel chart, PixelRect area) =>
        chart.Arrangement switch
        {
            PanelArrangement.Grid => chart.Panels.Select(panel => InGrid(chart, panel, area)),
            PanelArrangement.Beneath => InTurn(chart).Select(turn => Beneath(
                chart.Panels, turn.Panel, new PixelRect(area.Left, area.Right, area.Top + (turn.To * area.Height), area.Top + (turn.From * area.Height)))),
            PanelArrangement.Beside => InTurn(chart).Select(turn =>
            {
                var rect = new PixelRect(area.Left + (turn.From * area.Width), area.Left + (turn.To * area.Width), area.Bottom, area.Top);
                return (turn.Panel, rect, new PanelRoom(null, null, TopRoom(turn.Panel, rect.Width - SideAxisPt - PlainRightPt), null));
            }),
            _ => throw new ArgumentOutOfRangeException(nameof(chart), chart.Arrangement, "This arrangement is unknown."),
        };

    private static IEnumerable<(PanelModel Panel, float From, float To)> InTurn(ChartModel chart)
    {
        double total = chart.Panels.Sum(panel => panel.Weight);
        double before = 0;
        foreach (PanelModel panel in chart.Panels)
        {
            float from = (float)(before / total);
            before += panel.Weight;
            yield return (panel, from, (float)(before / total));
        }
    }

    private static (PanelModel Panel, PixelRect Area, PanelRoom Room) Beneath(ImmutableArray<PanelModel> stack, PanelModel panel, PixelRect area)
    {
        float left = LeftWidth(stack);
        float right = RightWidth(stack);
        return (panel, area, new PanelRoom(left, right, TopRoom(panel, area.Width - left - right), null));
    }

    private static (PanelModel Panel, PixelRect Area, PanelRoom Room) InGrid(ChartModel chart, PanelModel panel, PixelRect area)
    {
        (float from, float to) = Share(chart.ColumnWeights, panel.Column);
        (float above, float below) = Share(chart.RowWeights, panel.Row);
        var rect = new PixelRect(area.Left + (from * area.Width), area.Left + (to * area.Width), area.Top + (below * area.Height), area.Top + (above * area.Height));
        ImmutableArray<PanelModel> column = [.. chart.Panels.Where(one => one.Column == panel.Column)];
        PanelModel[] row = [.. chart.Panels.Where(one => one.Row == panel.Row)];
        float left = LeftWidth(column);
        float right = RightWidth(column);
        float top = row.Max(one => EdgeNames.TopRoom(one, rect.Width - left - right));
        float bottom = row.Any(one => one.X.Label.Length > 0) ? BottomAxisPt : PanelPlot.BareEdgePt;
        return (panel, rect, new PanelRoom(left, right, top > 0 ? top : null, bottom));
    }

    private static (float From, float To) Share(ImmutableArray<double> weights, int index)
    {
        double total = weights.Sum();
        double before = weights.Take(index).Sum();
        return ((float)(before / total), (float)((before + weights[index]) / total));
    }

    private static float? TopRoom(PanelModel panel, float dataWidth) => panel.TopNames.IsEmpty ? null : EdgeNames.TopRoom(panel, dataWidth);

    /// <summary>Room for numbers, or for the widest of the names that an axis prints instead.</summary>
    private static float LeftWidth(ImmutableArray<PanelModel> panels)
    {
        float widest = panels
            .Where(panel => panel.Y.ShowTickLabels)
            .SelectMany(panel => panel.Y.Ticks)
            .Select(tick => TextPainter.Measure(tick.Label, ReportTheme.TickLabelPt))
            .DefaultIfEmpty(0)
            .Max();
        bool bare = panels.All(panel => panel.Y is { Label.Length: 0, ShowTickLabels: false });
        return bare ? PanelPlot.BareEdgePt : Math.Max(SideAxisPt, widest + LeftLabelPaddingPt);
    }

    private static float RightWidth(ImmutableArray<PanelModel> panels)
    {
        float lines = panels
            .SelectMany(panel => panel.ReferenceLines)
            .Where(line => line.Orientation == LineOrientation.Horizontal)
            .Select(line => TextPainter.Measure(line.Label, ReportTheme.TickLabelPt))
            .DefaultIfEmpty(0)
            .Max();
        float names = panels
            .SelectMany(panel => panel.RightNames)
            .Select(name => TextPainter.Measure(name.Label, ReportTheme.TickLabelPt))
            .DefaultIfEmpty(0)
            .Max();
        return Math.Max(PlainRightPt, Math.Max(lines > 0 ? lines + RightLabelPaddingPt : 0, names > 0 ? names + EdgeNames.RightGapPt : 0));
    }
}
