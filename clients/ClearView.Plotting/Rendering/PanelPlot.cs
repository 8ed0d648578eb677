using System.Globalization;

using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;

using ScottPlot;
using ScottPlot.TickGenerators;

namespace ClearView.Plotting.Rendering;

/// <summary>From a panel to a plot of the drawing library.</summary>
internal static class PanelPlot
{
    private const float LabelPaddingPt = 3;
    /// <summary>Room beneath a panel whose horizontal axis has no label.</summary>
    internal const float BareEdgePt = 12;
    private const float LeftLabelShiftPt = 4;

    private static readonly SeriesLook BoundaryLook = new(LineKind.Dotted, MarkKind.None, Ink.Grey) { LineWidth = 0.8 };

    /// <summary>Builds the plot.</summary>
    /// <param name="panel">The panel.</param>
    /// <param name="room">Room to keep for the axes, so that stacked panels align.</param>
    public static Plot Create(PanelModel panel, PanelRoom room)
    {
        _ = ChartFont.Use();
        var plot = new Plot();
        plot.FigureBackground.Color = ReportTheme.Paper;
        plot.DataBackground.Color = ReportTheme.Paper;
        plot.Grid.MajorLineColor = ReportTheme.GridLine;
        plot.Grid.MajorLineWidth = 0.8f;
        plot.HideLegend();

        AddBands(plot, panel);
        AddReferenceLines(plot, panel);
        foreach (SeriesModel series in panel.Series)
        {
            SeriesPlot.Add(plot, series);
        }

        foreach (AnnotationModel annotation in panel.Annotations.Where(one => !one.Loose))
        {
            AddAnnotation(plot, annotation);
        }

        AnnotationModel[] loose = [.. panel.Annotations.Where(one => one.Loose)];
        if (loose.Length > 0)
        {
            plot.PlottableList.Add(new LooseWords(loose, panel.Series));
        }

        Dress(plot, panel);
        Keep(plot.Axes.Left, room.Left);
        Keep(plot.Axes.Right, room.Right);
        Keep(plot.Axes.Top, room.Top);
        Keep(plot.Axes.Bottom, room.Bottom ?? (panel.X.Label.Length == 0 ? BareEdgePt : null));

        plot.Axes.SetLimits(panel.X.Minimum, panel.X.Maximum, panel.Y.Minimum, panel.Y.Maximum);
        plot.Axes.SetLimits(panel.X.Minimum, panel.X.Maximum, panel.Y.Minimum, panel.Y.Maximum, plot.Axes.Top, plot.Axes.Right);
        if (panel.EqualScale)
        {
            plot.Axes.Rules.Add(new ScottPlot.AxisRules.SquareZoomOut(plot.Axes.Bottom, plot.Axes.Left));
        }

        return plot;
    }

    private static void Keep(IAxis axis, float? room)
    {
        if (room is { } size)
        {
            axis.MinimumSize = axis.MaximumSize = size;
        }
    }

    private static void Dress(Plot plot, PanelModel panel)
    {
        DressAxis(plot.Axes.Bottom, panel.X);
        DressAxis(plot.Axes.Left, panel.Y);
        plot.Axes.Left.Label.OffsetX = -LeftLabelShiftPt;
        foreach (IAxis side in new IAxis[] { plot.Axes.Top, plot.Axes.Right })
        {
            Styles.Text(side.TickLabelStyle, ReportTheme.TickLabelPt, ReportTheme.Text);
            Styles.Text(side.Label, ReportTheme.TickLabelPt, ReportTheme.QuietText);
            side.FrameLineStyle.Color = ReportTheme.Frame;
        }

        plot.Axes.Title.Label.Text = panel.Heading;
        Styles.Text(plot.Axes.Title.Label, ReportTheme.AxisLabelPt, ReportTheme.Text, bold: true);
        plot.Axes.Title.IsVisible = panel.Heading.Length > 0;
        plot.Axes.Margins(0, 0);
    }

    private static void DressAxis(IAxis axis, AxisModel model)
    {
        axis.Label.Text = model.Label;
        Styles.Text(axis.Label, ReportTheme.AxisLabelPt, ReportTheme.Text);
        axis.Label.IsVisible = model.Label.Length > 0;
        Styles.Text(axis.TickLabelStyle, ReportTheme.TickLabelPt, ReportTheme.Text);
        axis.FrameLineStyle.Color = ReportTheme.Frame;
        axis.MajorTickStyle.Color = ReportTheme.Frame;
        axis.MinorTickStyle.Length = 0;
        if (!model.ShowTickLabels)
        {
            axis.TickLabelStyle.IsVisible = false;
        }

        axis.TickGenerator = model.Ticks.IsEmpty
            ? new NumericAutomatic { LabelFormatter = FormatTick, IntegerTicksOnly = false }
            : new NumericManual([.. model.Ticks.Select(tick => tick.Value)], [.. model.Ticks.Select(tick => tick.Label)]);
    }

    private static string FormatTick(double value) =>
        Math.Round(value, 10).ToString("0.##########", CultureInfo.InvariantCulture).Replace('-', '−');

    private static void AddBands(Plot plot, PanelModel panel)
    {
        for (int index = 0; index < panel.Bands.Length; index++)
        {
            BandModel band = panel.Bands[index];
            if (index % 2 == 1)
            {
                var span = plot.Add.HorizontalSpan(band.From, band.To, ReportTheme.BandFill);
                span.LineStyle.IsVisible = false;
            }

            if (index > 0)
            {
                AddAcross(plot, panel, LineOrientation.Vertical, band.From, BoundaryLook);
            }
        }

        plot.Axes.Top.TickGenerator = new NumericManual(
            [.. panel.Bands.Select(band => (band.From + band.To) / 2)],
            [.. panel.Bands.Select(band => band.Label)]);
        plot.Axes.Top.MajorTickStyle.Length = 0;
    }

    private static void AddReferenceLines(Plot plot, PanelModel panel)
    {
        var named = new NumericManual();
        foreach (ReferenceLineModel line in panel.ReferenceLines)
        {
            AddAcross(plot, panel, line.Orientation, line.Value, line.Look);
            if (line.Orientation == LineOrientation.Horizontal && line.Label.Length > 0)
            {
                named.AddMajor(line.Value, line.Label);
            }
        }

        plot.Axes.Right.TickGenerator = named;
    }

    /// <summary>A line across the panel, long enough for the wider limits of an equal scale too.</summary>
    private static void AddAcross(Plot plot, PanelModel panel, LineOrientation orientation, double value, SeriesLook look)
    {
        double reach = panel.EqualScale ? 10 : 0;
        double x = reach * (panel.X.Maximum - panel.X.Minimum);
        double y = reach * (panel.Y.Maximum - panel.Y.Minimum);
        Coordinates[] points = orientation == LineOrientation.Horizontal
            ? [new(panel.X.Minimum - x, value), new(panel.X.Maximum + x, value)]
            : [new(value, panel.Y.Minimum - y), new(value, panel.Y.Maximum + y)];
        plot.PlottableList.Add(new PatternLine(points, look));
    }

    private static void AddAnnotation(Plot plot, AnnotationModel annotation)
    {
        var text = plot.Add.Text(annotation.Text, annotation.X, annotation.Y);
        Styles.Text(text.LabelStyle, ReportTheme.AnnotationPt, ReportTheme.Text, annotation.Bold);
        text.LabelBackgroundColor = annotation.Transparent ? Colors.Transparent : ReportTheme.Paper.WithAlpha(0.8);
        text.LabelPadding = LabelPaddingPt;
        (text.LabelAlignment, text.OffsetX, text.OffsetY) = annotation.Anchor switch
        {
            AnnotationAnchor.Above => (Alignment.LowerCenter, 0f, -6f),
            AnnotationAnchor.Beneath => (Alignment.UpperCenter, 0f, 6f),
            AnnotationAnchor.Left => (Alignment.MiddleRight, -6f, 0f),
            AnnotationAnchor.Right => (Alignment.MiddleLeft, 6f, 0f),
            AnnotationAnchor.Centre => (Alignment.MiddleCenter, 0f, 0f),
            _ => throw new ArgumentOutOfRangeException(nameof(annotation), annotation.Anchor, "This side is unknown."),
        };
    }
}
