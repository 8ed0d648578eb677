using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;
using ClearView.Plotting.Theme;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>How the readings of a process lie between their limits, with the indices of capability (ISO 22514) or why there are none.</summary>
public static class CapabilityChart
{
    private const float PanelPt = 330;
    private const int FewReadings = 10;
    private const double RoomAbove = 1.08;
    private const double LeastSpanShare = 0.01;

    private static readonly SeriesLook BinLook = new(LineKind.None, MarkKind.None, Ink.Blue) { Fill = FillKind.Light };
    private static readonly SeriesLook FitLook = new(LineKind.Solid, MarkKind.None, Ink.Black) { LineWidth = 2 };
    private static readonly SeriesLook MeanLook = new(LineKind.Dotted, MarkKind.None, Ink.Black) { LineWidth = 2 };

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="capability">The capability, or why there is none.</param>
    /// <exception cref="ChartRefusedException">There is neither a reading nor a limit to draw.</exception>
    public static ChartModel Build(Capability capability)
    {
        ArgumentNullException.ThrowIfNull(capability);
        bool refused = capability.Refusal.Length > 0;
        var chart = new ChartModel
        {
            Title = $"Capability: {ProcessWords.Lower(capability.Name)}",
            Subtitle = refused ? "No indices are given" : CapabilityFigures.Headline(capability),
            Panels = [Panel(capability)],
            Figures = CapabilityFigures.Of(capability),
            Notes =
            [
                .. refused ? [$"Refused: {capability.Refusal}"] : ImmutableArray<string>.Empty,
                .. capability.Remarks,
            ],
            Footer = [CapabilityFigures.Method(capability)],
        };
        float panels = Math.Max(PanelPt, new FigureBox(chart.Figures).Height + ReportTheme.MarginPt);
        return chart with { HeightPt = MathF.Ceiling(panels + ChartPainter.RoomOutsidePanels(chart)) };
    }

    private static PanelModel Panel(Capability capability)
    {
        double[] reach =
        [
            .. capability.Histogram.SelectMany(bin => new[] { bin.Lower, bin.Upper }),
            .. LimitLines.Of(capability.Limits, "").Select(line => line.Value),
            .. capability.HasMean ? [capability.Mean] : Array.Empty<double>(),
        ];
        if (reach.Length == 0)
        {
            throw new ChartRefusedException("The capability has neither readings nor limits to draw.");
        }

        (double from, double to) = AxisRange.Around(reach, Math.Max(reach.Max(Math.Abs) * LeastSpanShare, 1e-6));
        double high = Math.Max(1, capability.Histogram.Select(bin => (double)bin.ReadingCount).Concat(capability.FittedBinCount).DefaultIfEmpty(1).Max());
        string mean = capability.HasMean ? CapabilityFigures.Beside(capability.Mean, capability) : "";
        return new PanelModel
        {
            X = new AxisModel(Wording.Quantity(capability.Name, capability.Unit), from, to),
            Y = new AxisModel("Readings in a bin", 0, high * RoomAbove)
            {
                // Counts are whole; few of them would be marked in fractions.
                Ticks = high < FewReadings ? [.. Enumerable.Range(0, (int)high + 1).Select(count => new AxisTick(count, Wording.Number(count)))] : [],
            },
            Series = Series(capability),
            ReferenceLines =
            [
                .. LimitLines.Lines(capability.Limits, LineOrientation.Vertical),
                .. capability.HasMean ? [new ReferenceLineModel(LineOrientation.Vertical, capability.Mean, "", MeanLook)] : ImmutableArray<ReferenceLineModel>.Empty,
            ],
            TopNames =
            [
                .. LimitLines.Names(capability.Limits, capability.Unit),
                .. capability.HasMean ? [new AxisTick(capability.Mean, $"mean {mean}")] : ImmutableArray<AxisTick>.Empty,
            ],
            Annotations = capability.Histogram.Count == 0
                ? [new AnnotationModel((from + to) / 2, high / 2, "no readings to draw", AnnotationAnchor.Centre)]
                : [],
        };
    }

    private static ImmutableArray<SeriesModel> Series(Capability capability)
    {
        var series = ImmutableArray.CreateBuilder<SeriesModel>();
        if (capability.Histogram.Count > 0)
        {
            series.Add(new SeriesModel
            {
                Label = "readings",
                Look = BinLook,
                Points = [],
                Bars = [.. capability.Histogram.Where(bin => bin.ReadingCount > 0).Select(bin => new BarModel(bin.Lower, bin.Upper, 0, bin.ReadingCount))],
            });
        }

        if (capability.FittedBinCount.Count > 0 && capability.FittedBinCount.Count == capability.Histogram.Count)
        {
            ChartPoint[] middles =
                [.. capability.Histogram.Zip(capability.FittedBinCount, (bin, count) => new ChartPoint((bin.Lower + bin.Upper) / 2, count))];
            series.Add(new SeriesModel { Label = $"fitted: {CapabilityFigures.Model(capability)}", Look = FitLook, Points = [.. SmoothLine.Through(middles)] });
        }

        return series.ToImmutable();
    }
}
