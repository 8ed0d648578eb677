using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>The panels of a roll map.</summary>
internal static class RollPanel
{
    private const double BracketFrom = 0.008;
    private const double BracketTo = 0.02;
    private const double MapRoom = 0.03;
    private const double LeastSpanShare = 0.001;
    private const double LeastBracket = 0.016;
    private const int ManyMarks = 40;
    private const double ScaleTop = 0.34;

    private static readonly SeriesLook CellLook = new(LineKind.None, MarkKind.None, Ink.Black);
    private static readonly SeriesLook EmptyLook = new(LineKind.None, MarkKind.None, Ink.Grey) { Fill = FillKind.Dotted };
    private static readonly SeriesLook BeyondLook = new(LineKind.None, MarkKind.None, Ink.Black) { Fill = FillKind.Hatched };
    private static readonly SeriesLook BracketLook = new(LineKind.Solid, MarkKind.None, Ink.Black) { LineWidth = 2 };
    private static readonly SeriesLook LaneLook = new(LineKind.Solid, MarkKind.FilledCircle, Ink.Blue) { LineWidth = 1, MarkSize = 5 };
    private static readonly SeriesLook StreakLook = new(LineKind.Solid, MarkKind.OpenDiamond, Ink.Vermilion) { LineWidth = 1, MarkSize = 10 };
    private static readonly SeriesLook BlockLook = new(LineKind.Solid, MarkKind.OpenCircle, Ink.Blue) { LineWidth = 0.8, MarkSize = 5 };
    private static readonly SeriesLook ShownLook = new(LineKind.Solid, MarkKind.None, Ink.Black) { LineWidth = 2 };
    private static readonly SeriesLook UnshownLook = new(LineKind.DashDotted, MarkKind.None, Ink.Black) { LineWidth = 1.6 };

    /// <summary>The map: along from left to right, across from the bottom to the top.</summary>
    public static PanelModel Map(RollMap map, RollCells cells)
    {
        BarModel[] beyond = [.. cells.Filled.Where(cell => Beyond(cell.Mean, map.Limits)).Select(cell => cell.Area)];
        LaneProfile[] streaks = [.. map.Lanes.Where(lane => lane.Streak?.Streak == true)];
        return new PanelModel
        {
            Row = 0,
            Column = 0,
            X = AlongAxis(map) with { Label = "", ShowTickLabels = false },
            Y = new AxisModel("Across (mm)", map.AcrossFromMm, map.AcrossToMm),
            Series =
            [
                new SeriesModel { Label = "mean of a cell", Look = CellLook, Points = [], InLegend = false, Cells = [.. cells.Filled.Select(cell => new CellModel(cell.Area, cells.Fraction(cell.Mean)))] },
                .. Areas("no reading", EmptyLook, cells.Empty),
                .. Areas("mean of a cell beyond a limit", BeyondLook, beyond),
                .. streaks.Length > 0 ? [Brackets(map, streaks)] : ImmutableArray<SeriesModel>.Empty,
            ],
            RightNames = [.. streaks.Select(lane => new AxisTick(lane.MiddleMm, "streak"))],
        };
    }

    /// <summary>The profile across, beside the map.</summary>
    public static PanelModel Across(RollMap map)
    {
        LaneProfile[] lanes = [.. map.Lanes.Where(lane => lane.HasMean)];
        double[] reach =
        [
            .. lanes.Select(lane => lane.Mean),
            .. lanes.Where(lane => lane.Interval is not null).SelectMany(lane => new[] { lane.Interval.Lower, lane.Interval.Upper }),
        ];
        (double from, double to) = Around(reach, map.Limits);
        return new PanelModel
        {
            Row = 0,
            Column = 1,
            X = new AxisModel($"Lane mean{(map.Unit.Length > 0 ? $" ({map.Unit})" : "")}", from, to),
            Y = new AxisModel("Across (mm)", map.AcrossFromMm, map.AcrossToMm),
            ReferenceLines = [.. LimitLines.Lines(map.Limits, LineOrientation.Vertical).Where(line => line.Value > from && line.Value < to)],
            TopNames = [.. Short(map).Where(name => name.Value > from && name.Value < to)],
            Series =
            [
                Profile("lane, with interval", Sized(LaneLook, lanes.Length), lanes.Where(lane => lane.Streak?.Streak != true)),
                .. lanes.Any(lane => lane.Streak?.Streak == true)
                    ? [Profile("lane with a streak", StreakLook, lanes.Where(lane => lane.Streak?.Streak == true))]
                    : ImmutableArray<SeriesModel>.Empty,
            ],
        };
    }

    /// <summary>The trend along, beneath the map.</summary>
    public static PanelModel Along(RollMap map, RollCells cells)
    {
        double length = (map.AlongToM - map.AlongFromM) / map.BlockCount;
        ChartPoint[] blocks = [.. BlockMeans(map).Select((mean, i) => new ChartPoint(map.AlongFromM + ((i + 0.5) * length), mean))];
        ImmutableArray<SeriesModel> trend = [];
        if (map.Trend is { } line)
        {
            double end = line.ValueAtStart + (line.SlopePerM * (map.AlongToM - map.AlongFromM));
            trend = [new SeriesModel { Label = Trend(line, map.Unit), Look = line.Shown ? ShownLook : UnshownLook, Points = [new(map.AlongFromM, line.ValueAtStart), new(map.AlongToM, end)] }];
        }

        double[] reach = [.. blocks.Select(block => block.Y).Where(double.IsFinite), .. trend.SelectMany(series => series.Points).Select(point => point.Y)];
        (double low, double high) = Around(reach.Length > 0 ? reach : [cells.Low, cells.High], map.Limits);
        return new PanelModel
        {
            Row = 1,
            Column = 0,
            X = AlongAxis(map),
            Y = new AxisModel($"Block mean{(map.Unit.Length > 0 ? $" ({map.Unit})" : "")}", low, high),
            ReferenceLines = [.. LimitLines.Lines(map.Limits, LineOrientation.Horizontal).Where(line => line.Value > low && line.Value < high)],
            RightNames = [.. Short(map).Where(name => name.Value > low && name.Value < high).Select(name => name with { Label = name.Label.Split(' ')[0] })],
            Series = [new SeriesModel { Label = "mean of a block", Look = Sized(BlockLook, blocks.Length), Points = [.. blocks] }, .. trend],
        };
    }

    /// <summary>The colour scale with its unit and the limits on it.</summary>
    public static PanelModel Scale(RollMap map, RollCells cells)
    {
        double step = (cells.High - cells.Low) / ColourScale.StepCount;
        (string Name, double Value)[] limits = [.. Short(map).Select(name => (name.Label, name.Value))];
        (string Name, double Value)[] on = [.. limits.Where(limit => limit.Value >= cells.Low && limit.Value <= cells.High)];
        string[] off = [.. limits.Where(limit => limit.Value < cells.Low || limit.Value > cells.High).Select(limit => $"{limit.Name} {(limit.Value < cells.Low ? "←" : "→")}")];
        return new PanelModel
        {
            Row = 1,
            Column = 1,
            X = new AxisModel($"Colour: {Wording.Quantity(map.Name, map.Unit)}", cells.Low, cells.High),
            Y = new AxisModel("", 0, 1) { ShowTickLabels = false, Ticks = [new AxisTick(-1, "")] },
            Series =
            [
                new SeriesModel
                {
                    Label = "colour scale",
                    Look = CellLook,
                    Points = [],
                    InLegend = false,
                    Cells =
                    [
                        .. Enumerable.Range(0, ColourScale.StepCount)
                            .Select(i => new CellModel(new BarModel(cells.Low + (i * step), cells.Low + ((i + 1) * step), 0, ScaleTop), (double)i / (ColourScale.StepCount - 1))),
                    ],
                },
                .. on.Select(limit => new SeriesModel { Label = limit.Name, Look = BracketLook, InLegend = false, Points = [new(limit.Value, 0), new(limit.Value, ScaleTop + 0.06)] }),
            ],
            Annotations =
            [
                .. on.Select(limit => new AnnotationModel(limit.Value, ScaleTop + 0.06, limit.Name, AnnotationAnchor.Above) { Loose = true }),
                .. off.Select((name, i) => new AnnotationModel((cells.Low + cells.High) / 2, 0.9 - (0.2 * i), name, AnnotationAnchor.Centre) { Transparent = true }),
            ],
        };
    }

    /// <summary>The names of the limits as the narrow panels hold them.</summary>
    private static IEnumerable<AxisTick> Short(RollMap map) =>
        LimitLines.Names(map.Limits, map.Unit).Select(name => name with { Label = name.Label.Replace(" limit", "", StringComparison.Ordinal) });

    private static AxisModel AlongAxis(RollMap map) => new("Along (m)", map.AlongFromM, map.AlongToM + (MapRoom * (map.AlongToM - map.AlongFromM)));

    private static bool Beyond(double mean, SeriesLimits? limits) =>
        limits is not null && ((limits.HasLower && mean < limits.Lower) || (limits.HasUpper && mean > limits.Upper));

    private static IEnumerable<SeriesModel> Areas(string label, SeriesLook look, BarModel[] areas)
    {
        if (areas.Length > 0)
        {
            yield return new SeriesModel { Label = label, Look = look, Points = [], Bars = [.. areas] };
        }
    }

    /// <summary>A bracket at the edge of each lane with a streak.</summary>
    private static SeriesModel Brackets(RollMap map, LaneProfile[] streaks)
    {
        double length = map.AlongToM - map.AlongFromM;
        double half = Math.Max(0.5 / map.LaneCount, LeastBracket) * (map.AcrossToMm - map.AcrossFromMm);
        (double from, double to) = (map.AlongToM + (BracketFrom * length), map.AlongToM + (BracketTo * length));
        return new SeriesModel
        {
            Label = "streak",
            Look = BracketLook,
            InLegend = false,
            Points =
            [
                .. streaks.SelectMany(lane => ImmutableArray.Create(
                    new(from, lane.MiddleMm - half), new(to, lane.MiddleMm - half), new(to, lane.MiddleMm + half), new ChartPoint(from, lane.MiddleMm + half), new(double.NaN, double.NaN))),
            ],
        };
    }

    /// <summary>Marks that stand close are drawn smaller.</summary>
    private static SeriesLook Sized(SeriesLook look, int count) => look with { MarkSize = look.MarkSize * Math.Min(1, Math.Sqrt((double)ManyMarks / Math.Max(count, 1))) };

    private static SeriesModel Profile(string label, SeriesLook look, IEnumerable<LaneProfile> lanes) => new()
    {
        Label = label,
        Look = look,
        Points = [.. lanes.SelectMany(lane => ImmutableArray.Create(new(lane.Mean, lane.MiddleMm), new ChartPoint(double.NaN, double.NaN)))],
        Whiskers = [.. lanes.Where(lane => lane.Interval is not null).Select(lane => new WhiskerModel(LineOrientation.Horizontal, lane.MiddleMm, lane.Interval.Lower, lane.Interval.Upper))],
    };

    /// <summary>Means of the blocks: those of the trend, else those of the cells weighed alike.</summary>
    private static IEnumerable<double> BlockMeans(RollMap map) => map.Trend is { BlockMean.Count: > 0 } trend
        ? trend.BlockMean
        : map.CellMean.Chunk((int)map.LaneCount).Select(lanes => lanes.Where(double.IsFinite).DefaultIfEmpty(double.NaN).Average());

    private static string Trend(AlongTrend trend, string unit)
    {
        string suffix = Wording.Suffix(unit);
        string interval = trend.SlopeInterval is { } ends
            ? $" ({Scaled(ends.Lower, ends)} to {Scaled(ends.Upper, ends)})"
            : "";
        return $"trend {(trend.Shown ? "shown" : "not shown")}: {(trend.SlopeInterval is { } of ? Scaled(trend.SlopePerM, of) : Wording.Number(1000 * trend.SlopePerM))}{interval}{suffix} per km";
    }

    private static string Scaled(double perM, ValueInterval interval) => Digits.Beside(1000 * perM, 1000 * (interval.Upper - interval.Lower) / 2);

    /// <summary>Around what is drawn; limits close by are taken in.</summary>
    private static (double Low, double High) Around(double[] reach, SeriesLimits? limits)
    {
        if (reach.Length == 0)
        {
            return (0, 1);
        }

        (double low, double high) = AxisRange.Around(reach, Math.Max(LeastSpanShare * reach.Max(Math.Abs), 1e-6));
        double span = high - low;
        double[] close = [.. LimitLines.Of(limits, "").Select(line => line.Value).Where(value => value > low - span && value < high + span)];
        return close.Length == 0 ? (low, high) : AxisRange.Around([.. reach, .. close], span);
    }
}
