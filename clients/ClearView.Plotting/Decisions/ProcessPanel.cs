using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>The panels of a control chart.</summary>
internal static class ProcessPanel
{
    private const double RoomAbove = 0.14;
    private const double RoomBeneath = 0.06;
    private const double BaselineRoom = 0.21;
    private const double SpreadRoom = 0.28;
    private const double BracketRise = 0.03;
    private const int ManyPoints = 150;
    private const int MostPhaseCharacters = 40;

    private static readonly SeriesLook LateLook = new(LineKind.None, MarkKind.OpenCircle, Ink.Black) { MarkSize = 11 };
    private static readonly SeriesLook BaselineLook = new(LineKind.Solid, MarkKind.None, Ink.Purple) { LineWidth = 1.4 };
    private static readonly SeriesLook BandLook = new(LineKind.None, MarkKind.None, Ink.Blue) { Fill = FillKind.Light };
    private static readonly SeriesLook MeanLook = new(LineKind.DashDotted, MarkKind.None, Ink.Black) { LineWidth = 1.4 };

    /// <summary>What is plotted.</summary>
    public static PanelModel Plotted(ProcessTrace trace, bool withSpread)
    {
        bool Shown(ControlPattern pattern) => !withSpread || pattern != ControlPattern.SpreadBeyondLimits;
        LimitStep[] limits = trace.Limits();
        bool withBaseline = trace.Chart.Phases.Any(phase => phase.Limits?.Baseline is not null);
        (double low, double high) = Range(
            withBaseline ? BaselineRoom : RoomBeneath,
            RoomAbove,
        [
            .. trace.Points.SelectMany(point => Values(trace, point)),
            .. trace.Stretches.SelectMany(stretch => new[] { stretch.Minimum, stretch.Maximum }),
            .. limits.SelectMany(step => new[] { step.Lower, step.Centre, step.Upper }),
        ]);
        ImmutableArray<BandModel> phases = Phases(limits);
        double bracket = low + (BracketRise * (high - low));
        WhiskerModel[] baselines = [.. Baselines(trace, phases, bracket)];
        return new PanelModel
        {
            X = withSpread ? trace.Axis with { Label = "", ShowTickLabels = false } : trace.Axis,
            Y = new AxisModel(ProcessWords.Plotted(trace.Summary, trace.Chart.Kind), low, high),
            Bands = phases,
            TopNames = trace.Chart.Phases.Count > 1
                ? [.. phases.Select((band, i) => new AxisTick((band.From + band.To) / 2, ShortNames.Of(PhaseOf(trace, limits, band), MostPhaseCharacters)))]
                : [],
            Series =
            [
                .. trace.Thinned ? Stretches(trace) : Points(trace, Shown),
                .. StepLines.Series(limits, trace.IsCusum ? "zero" : "centre line", trace.IsCusum ? "decision interval" : "control limits"),
                .. baselines.Length > 0 ? [new SeriesModel { Label = "baseline", Look = BaselineLook, Points = [], Whiskers = [.. baselines], InLegend = false }] : ImmutableArray<SeriesModel>.Empty,
                .. SignalMarks.Series(trace, Shown, (point, pattern) => Place(trace, point, pattern)),
                .. Late(trace),
            ],
            RightNames = StepLines.Names(limits, trace.IsCusum ? "zero" : "centre", trace.Summary.Unit),
            Annotations =
            [
                .. baselines.Select(one => new AnnotationModel((one.Low + one.High) / 2, one.At, "baseline", AnnotationAnchor.Above) { Loose = true }),
                .. SignalMarks.Words(trace, Shown, (point, pattern) => Place(trace, point, pattern)),
            ],
        };
    }

    /// <summary>Moving range, range or standard deviation.</summary>
    public static PanelModel Spread(ProcessTrace trace)
    {
        static bool Shown(ControlPattern pattern) => pattern == ControlPattern.SpreadBeyondLimits;
        static ChartPoint At(ProcessTrace trace, ControlChartPoint point) => new(trace.X(point), point.HasSpread ? point.Spread : double.NaN);
        LimitStep[] limits = trace.SpreadLimits();
        ControlChartPoint[] points = [.. trace.Points.Where(point => point.HasSpread)];
        (_, double high) = Range(0, SpreadRoom, [0, .. points.Select(point => point.Spread), .. limits.SelectMany(step => new[] { step.Centre, step.Upper })]);
        string label = ProcessWords.Spread(trace.Chart.Kind);
        return new PanelModel
        {
            X = trace.Axis,
            Y = new AxisModel(Wording.Quantity(label, trace.Summary.Unit), 0, high),
            Bands = Phases(trace.Limits()),
            Series =
            [
                .. Joined(label.ToLowerInvariant(), points, point => At(trace, point), point => !point.Patterns.Any(Shown), MarkKind.FilledCircle)
                    .Select(series => series with { InLegend = false }),
                .. StepLines.Series(limits, "centre line", "control limits"),
                .. SignalMarks.Series(trace, Shown, (point, _) => At(trace, point)),
            ],
            RightNames = StepLines.Names(limits, "centre", trace.Summary.Unit),
            Annotations = SignalMarks.Words(trace, Shown, (point, _) => At(trace, point)),
        };
    }

    /// <summary>Where a point lies that raises a pattern: of two sums, that which raises it.</summary>
    private static ChartPoint Place(ProcessTrace trace, ControlChartPoint point, ControlPattern pattern) => new(
        trace.X(point),
        !trace.IsCusum ? point.Plotted : pattern == ControlPattern.SumBelowTarget ? -point.SumBelow : point.SumAbove);

    private static IEnumerable<double> Values(ProcessTrace trace, ControlChartPoint point) =>
        trace.IsCusum ? [point.SumAbove, -point.SumBelow] : [point.Plotted];

    private static (double Low, double High) Range(double beneath, double above, IEnumerable<double> values)
    {
        double[] finite = [.. values.Where(double.IsFinite)];
        (double low, double high) = (finite.Min(), finite.Max());
        double span = high > low ? high - low : Math.Max(Math.Abs(high), 1) * 0.01;
        return (low - (beneath * span), high + (above * span));
    }

    private static IEnumerable<SeriesModel> Points(ProcessTrace trace, Func<ControlPattern, bool> shown)
    {
        if (trace.IsCusum)
        {
            return
            [
                .. Joined("sum above the target", trace.Points, p => new ChartPoint(trace.X(p), p.SumAbove), p => !p.Patterns.Contains(ControlPattern.SumAboveTarget), MarkKind.FilledCircle),
                .. Joined("sum below the target, negative", trace.Points, p => new ChartPoint(trace.X(p), -p.SumBelow), p => !p.Patterns.Contains(ControlPattern.SumBelowTarget), MarkKind.OpenSquare),
            ];
        }

        string label = trace.Chart.Kind switch
        {
            ControlChartKind.Individuals => "reading",
            ControlChartKind.Ewma => "moving average",
            _ => "mean of a subgroup",
        };
        return Joined(label, trace.Points, p => new ChartPoint(trace.X(p), p.Plotted), p => !p.Late && !p.Patterns.Any(shown), MarkKind.FilledCircle);
    }

    /// <summary>A line, interrupted where a phase ends, and the marks on it; a point that came late or raises a signal has another mark.</summary>
    private static IEnumerable<SeriesModel> Joined(
        string label, ControlChartPoint[] points, Func<ControlChartPoint, ChartPoint> place, Func<ControlChartPoint, bool> marked, MarkKind mark)
    {
        ChartPoint gap = new(double.NaN, double.NaN);
        SeriesLook look = LineMark(points.Length, mark);
        yield return new SeriesModel
        {
            Label = $"line, {label}",
            Look = look with { Mark = MarkKind.None },
            InLegend = false,
            Points = [.. points.SelectMany((point, i) => i > 0 && points[i - 1].PhaseCount != point.PhaseCount ? new[] { gap, place(point) } : [place(point)])],
        };
        yield return new SeriesModel { Label = label, Look = look, Points = [.. points.Where(marked).SelectMany(point => new[] { place(point), gap })] };
    }

    private static SeriesLook LineMark(int count, MarkKind mark) => new(LineKind.Solid, mark, Ink.Blue)
    {
        LineWidth = count > ManyPoints ? 0.6 : 0.9,
        MarkSize = Math.Clamp(5.0 * Math.Sqrt((double)ManyPoints / Math.Max(count, 1)), 1.6, 5),
    };

    private static IEnumerable<SeriesModel> Stretches(ProcessTrace trace)
    {
        yield return new SeriesModel
        {
            Label = "smallest to greatest of a stretch",
            Look = BandLook,
            Points = [],
            Ribbon = [.. trace.Stretches.SelectMany(s => new[] { new RangeModel(trace.X(s.MeasuredFrom), s.Minimum, s.Maximum), new(trace.X(s.MeasuredTo), s.Minimum, s.Maximum) })],
        };
        if (!trace.IsCusum)
        {
            yield return new SeriesModel
            {
                Label = "mean of a stretch",
                Look = MeanLook,
                Points = [.. trace.Stretches.Select(s => new ChartPoint(trace.Middle(s), s.Mean))],
            };
        }
    }

    private static IEnumerable<SeriesModel> Late(ProcessTrace trace)
    {
        ControlChartPoint[] late = [.. trace.Points.Where(point => point.Late)];
        if (late.Length > 0)
        {
            yield return new SeriesModel
            {
                Label = "late",
                Look = LateLook,
                Points = [.. late.Select(point => Place(trace, point, point.SumBelow > point.SumAbove ? ControlPattern.SumBelowTarget : ControlPattern.SumAboveTarget))],
            };
        }
    }

    private static ImmutableArray<BandModel> Phases(LimitStep[] limits) =>
    [
        .. limits.Where((step, i) => i == 0 || limits[i - 1].Phase != step.Phase)
            .Select(first => new BandModel(first.FromX, limits.Last(step => step.Phase == first.Phase).ToX, "")),
    ];

    private static string PhaseOf(ProcessTrace trace, LimitStep[] limits, BandModel band) =>
        trace.PhaseName(limits.First(step => step.FromX >= band.From).Phase);

    /// <summary>The stretch that the limits of a phase were taken from, as far as the chart reaches.</summary>
    private static IEnumerable<WhiskerModel> Baselines(ProcessTrace trace, ImmutableArray<BandModel> phases, double at)
    {
        foreach (MeasuredSpan span in trace.Chart.Phases.Select(phase => phase.Limits?.Baseline).OfType<MeasuredSpan>())
        {
            double from = span.MeasuredFrom is { } start ? Math.Max(trace.X(start), phases[0].From) : phases[0].From;
            double to = span.MeasuredBefore is { } end ? Math.Min(trace.X(end), phases[^1].To) : phases[^1].To;
            if (to > from)
            {
                yield return new WhiskerModel(LineOrientation.Horizontal, at, from, to);
            }
        }
    }
}
