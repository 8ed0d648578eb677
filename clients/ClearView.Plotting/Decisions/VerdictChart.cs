using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>A verdict: each limit a row scaled to its tolerance, with value, uncertainty, guard band and outcome.</summary>
public static class VerdictChart
{
    private const float RowPt = 46;
    private const float EdgesPt = 60;
    private const int MostReasons = 6;
    private const int MostNameCharacters = 34;
    private const double ToleranceReach = 0.17;
    private const double LimitReach = 0.34;
    private const double EdgeShare = 0.02;

    private static readonly SeriesLook ToleranceLook = new(LineKind.None, MarkKind.None, Ink.Green) { Fill = FillKind.Light };
    private static readonly SeriesLook GuardLook = new(LineKind.None, MarkKind.None, Ink.Grey) { Fill = FillKind.Hatched };
    private static readonly SeriesLook LimitLook = new(LineKind.Solid, MarkKind.None, Ink.Black) { LineWidth = 2.4 };
    private static readonly SeriesLook TargetLook = new(LineKind.Dotted, MarkKind.None, Ink.Black) { LineWidth = 1.6 };
    private static readonly SeriesLook BarLook = new(LineKind.Solid, MarkKind.None, Ink.Black) { LineWidth = 1.6 };

    private static readonly ImmutableArray<(VerdictOutcome Outcome, SeriesLook Look)> Looks =
    [
        (VerdictOutcome.Conformity, new(LineKind.None, MarkKind.FilledCircle, Ink.Green) { MarkSize = 10 }),
        (VerdictOutcome.NeitherProven, new(LineKind.None, MarkKind.OpenDiamond, Ink.Ochre) { MarkSize = 11 }),
        (VerdictOutcome.NonConformity, new(LineKind.None, MarkKind.DiagonalCross, Ink.Vermilion) { MarkSize = 11 }),
        (VerdictOutcome.NotDecided, new(LineKind.None, MarkKind.OpenSquare, Ink.Grey) { MarkSize = 10 }),
    ];

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="verdict">The verdict.</param>
    /// <exception cref="ChartRefusedException">The verdict is on no limit.</exception>
    public static ChartModel Build(Verdict verdict)
    {
        ArgumentNullException.ThrowIfNull(verdict);
        if (verdict.Limits.Count == 0)
        {
            throw new ChartRefusedException("The verdict is on no limit; there is nothing to draw.");
        }

        VerdictRow[] rows = [.. verdict.Limits.Select((limit, i) => VerdictRow.Of(limit, verdict.DecisionRule, LotPanel.Middle(i, verdict.Limits.Count)))];
        string specimens = verdict.SpecimenCount == 1 ? "1 specimen" : $"mean of {verdict.SpecimenCount} specimens";
        string hidden = verdict.Reasons.Count > MostReasons ? $"… and {verdict.Reasons.Count - MostReasons} further reasons." : "";
        var chart = new ChartModel
        {
            Title = $"Verdict: {OutcomeWords.Of(verdict.Outcome)}",
            Subtitle = verdict.SpecificationName is { Name.Length: > 0 } name ? $"Specification {name.Name}, version {name.Version}; {specimens}" : $"Specification as given; {specimens}",
            Panels = [Panel(rows)],
            Notes = [.. verdict.Reasons.Take(MostReasons).Select(Wording.Sentence), .. hidden.Length > 0 ? [hidden] : ImmutableArray<string>.Empty],
            Footer = [Rule(verdict.DecisionRule), .. verdict.Caution.Length > 0 ? [verdict.Caution] : ImmutableArray<string>.Empty],
        };
        return chart with { HeightPt = MathF.Ceiling(EdgesPt + (RowPt * rows.Length) + ChartPainter.RoomOutsidePanels(chart)) };
    }

    private static PanelModel Panel(VerdictRow[] rows) => new()
    {
        X = new AxisModel("Place in the tolerance (each row on its own scale)", VerdictRow.From, VerdictRow.To)
        {
            Ticks =
            [
                .. rows.Any(row => row.Verdict.Limit?.HasLower == true) ? [new AxisTick(0, "lower limit")] : ImmutableArray<AxisTick>.Empty,
                .. rows.Any(row => row.Verdict.Limit?.HasUpper == true) ? [new AxisTick(1, "upper limit")] : ImmutableArray<AxisTick>.Empty,
            ],
        },
        Y = new AxisModel("Limit", 0, rows.Length)
        {
            Ticks = [.. rows.Select(row => new AxisTick(row.Middle, ShortNames.Of(row.Verdict.Name, MostNameCharacters)))],
        },
        Series = [.. Areas(rows), .. Bars(rows), .. Looks.Select(look => Marks(rows, look.Outcome, look.Look)).Where(series => !series.Points.IsEmpty), .. Outside(rows)],
        Annotations =
        [
            .. rows.SelectMany(row => row.Limits.Select(limit => new AnnotationModel(limit.Place, row.Middle - LimitReach, limit.Text, AnnotationAnchor.Centre) { Transparent = true })),
            .. rows.Where(row => row.Value is null).Select(row => new AnnotationModel(0.5, row.Middle, "no value", AnnotationAnchor.Centre) { Bold = true }),
        ],
        RightNames =
        [
            .. rows.Select(row => new AxisTick(row.Middle + 0.16, OutcomeWords.Of(row.Verdict.Outcome))),
            .. rows.Where(row => row.Value is not null).Select(row => new AxisTick(row.Middle - 0.17, row.Result)),
        ],
    };

    private static IEnumerable<SeriesModel> Areas(VerdictRow[] rows)
    {
        yield return new SeriesModel
        {
            Label = "tolerance",
            Look = ToleranceLook,
            Points = [],
            Bars = [.. rows.Select(row => new BarModel(row.ToleranceFrom, row.ToleranceTo, row.Middle - ToleranceReach, row.Middle + ToleranceReach))],
        };
        BarModel[] guards = [.. rows.SelectMany(row => row.Guards.Select(guard => new BarModel(guard.From, guard.To, row.Middle - ToleranceReach, row.Middle + ToleranceReach)))];
        if (guards.Length > 0)
        {
            yield return new SeriesModel { Label = "guard band: neither proven", Look = GuardLook, Points = [], Bars = [.. guards] };
        }
    }

    private static IEnumerable<SeriesModel> Bars(VerdictRow[] rows)
    {
        yield return new SeriesModel { Label = "limit", Look = LimitLook, Points = [.. rows.SelectMany(row => row.Limits.SelectMany(limit => Upright(limit.Place, row.Middle)))] };
        ChartPoint[] targets = [.. rows.Where(row => row.Target is not null).SelectMany(row => Upright(row.Target!.Value, row.Middle))];
        if (targets.Length > 0)
        {
            yield return new SeriesModel { Label = "target", Look = TargetLook, Points = [.. targets] };
        }

        WhiskerModel[] bars =
        [
            .. rows.Where(row => row is { Value: not null, Reach: > 0 } && !row.IsOutside).Select(row => new WhiskerModel(
                LineOrientation.Horizontal, row.Middle, Math.Max(row.Value!.Value - row.Reach, VerdictRow.From + EdgeShare), Math.Min(row.Value.Value + row.Reach, VerdictRow.To - EdgeShare))),
        ];
        if (bars.Length > 0)
        {
            yield return new SeriesModel { Label = "expanded uncertainty U", Look = BarLook, Points = [], Whiskers = [.. bars] };
        }
    }

    private static SeriesModel Marks(VerdictRow[] rows, VerdictOutcome outcome, SeriesLook look) => new()
    {
        Label = OutcomeWords.Of(outcome),
        Look = look,
        Points = [.. rows.Where(row => row.Verdict.Outcome == outcome && row.Value is not null).Select(row => new ChartPoint(Shown(row), row.Middle))],
    };

    /// <summary>An arrow beside the mark of a value that lies beyond the row's ends.</summary>
    private static IEnumerable<SeriesModel> Outside(VerdictRow[] rows)
    {
        ChartPoint[] arrows =
        [
            .. rows.Where(row => row.IsOutside).SelectMany(row =>
            {
                double tip = row.Value < VerdictRow.From ? VerdictRow.From + EdgeShare : VerdictRow.To - EdgeShare;
                double back = tip + (row.Value < VerdictRow.From ? 0.03 : -0.03);
                return ImmutableArray.Create(new(back, row.Middle + 0.14), new(tip, row.Middle), new ChartPoint(back, row.Middle - 0.14), new(double.NaN, double.NaN));
            }),
        ];
        if (arrows.Length > 0)
        {
            yield return new SeriesModel { Label = "further out", InLegend = false, Look = BarLook with { LineWidth = 2, Ink = Ink.Vermilion }, Points = [.. arrows] };
        }
    }

    private static double Shown(VerdictRow row) => Math.Clamp(row.Value!.Value, VerdictRow.From + (3 * EdgeShare), VerdictRow.To - (3 * EdgeShare));

    private static ImmutableArray<ChartPoint> Upright(double at, double middle) =>
        [new(at, middle - ToleranceReach), new(at, middle + ToleranceReach), new(double.NaN, double.NaN)];

    private static string Rule(DecisionRule? rule) => rule?.RuleCase switch
    {
        DecisionRule.RuleOneofCase.GuardBand => $"Decision rule: guard band g = {Wording.Number(rule.GuardBand.Factor)} U (JCGM 106, 8.3): conformity is proven within a limit by g or more, non-conformity beyond it by more than g; between, neither is.",
        DecisionRule.RuleOneofCase.SimpleAcceptance => "Decision rule: simple acceptance (JCGM 106, 8.2): a value within its limits is accepted, whatever its uncertainty.",
        _ => "Decision rule not stated.",
    };
}
