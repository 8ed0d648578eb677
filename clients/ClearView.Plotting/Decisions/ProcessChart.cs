using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>A control chart (ISO 7870): what is plotted with centre line and limits of each phase, its signals, and its spread.</summary>
public static class ProcessChart
{
    private const double MainWeight = 1.75;
    private const float WithSpreadPt = 430;
    private const float AlonePt = 300;

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="parts">The parts of the answer, in their order.</param>
    /// <exception cref="ChartRefusedException">The first part is missing, or there is no point.</exception>
    public static ChartModel Build(IReadOnlyList<DrawnControlChart> parts)
    {
        ArgumentNullException.ThrowIfNull(parts);
        ProcessTrace trace = ProcessTrace.Of(parts);
        bool withSpread = !trace.Thinned && trace.Points.Any(point => point.HasSpread);
        PanelModel main = ProcessPanel.Plotted(trace, withSpread);
        var chart = new ChartModel
        {
            Title = $"Control chart of {ProcessWords.Lower(trace.Summary.Name)}: {ProcessWords.Kind(trace.Chart.Kind)}",
            Subtitle = Subtitle(trace),
            Panels = withSpread ? [main with { Weight = MainWeight }, ProcessPanel.Spread(trace)] : [main],
            Notes = ProcessWords.Notes(trace),
            Footer = ProcessWords.Footer(trace),
        };
        return chart with { HeightPt = MathF.Ceiling((withSpread ? WithSpreadPt : AlonePt) + ChartPainter.RoomOutsidePanels(chart)) };
    }

    private static string Subtitle(ProcessTrace trace)
    {
        ControlChartSummary summary = trace.Summary;
        string signals = summary.SignalPointCount switch
        {
            0 => "no signal",
            1 => "1 point with a signal",
            _ => $"{summary.SignalPointCount} points with signals",
        };
        ImmutableArray<string> series =
            [.. new[] { trace.Chart.Series?.Product, trace.Chart.Series?.Line, trace.Chart.Series?.Lot, trace.Chart.Series?.Roll, trace.Chart.Series?.Instrument }.OfType<string>().Where(text => text.Length > 0)];
        string counts = summary.PointCount == summary.ReadingCount
            ? $"{summary.PointCount} {(summary.PointCount == 1 ? "reading" : "readings")}"
            : $"{summary.PointCount} points of {summary.ReadingCount} readings";
        return string.Join(", ", series.Append($"{counts}: {signals}"));
    }
}
