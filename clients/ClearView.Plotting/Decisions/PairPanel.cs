using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>A row for each pair of lots: the difference of the means with its interval, against zero and what would matter.</summary>
internal static class PairPanel
{
    public const string Different = "shown different";
    public const string Equivalent = "equivalent";
    public const string NotShown = "not shown";

    private const int MostNameCharacters = 17;
    private const double MostBandShare = 3;

    private static readonly SeriesLook MarginLook = new(LineKind.None, MarkKind.None, Ink.Green) { Fill = FillKind.Dotted };
    private static readonly SeriesLook TellableLook = new(LineKind.None, MarkKind.None, Ink.Grey) { Fill = FillKind.Hatched };
    private static readonly SeriesLook ZeroLook = new(LineKind.Solid, MarkKind.None, Ink.Black) { LineWidth = 1 };

    private static readonly ImmutableArray<(string Word, SeriesLook Look)> Looks =
    [
        (Different, new(LineKind.Solid, MarkKind.FilledSquare, Ink.Vermilion) { MarkSize = 8 }),
        (Equivalent, new(LineKind.Solid, MarkKind.FilledTriangle, Ink.Green) { MarkSize = 9 }),
        (NotShown, new(LineKind.Solid, MarkKind.OpenDiamond, Ink.Black) { MarkSize = 8 }),
    ];

    public static PanelModel Build(LotComparison comparison, LotPair[] pairs)
    {
        string[] lots = [.. comparison.Lots.Select(lot => lot.Lot)];
        Dictionary<string, string> shortNames = lots.Zip(ShortNames.Of(lots, MostNameCharacters)).DistinctBy(pair => pair.First).ToDictionary(pair => pair.First, pair => pair.Second);
        double? margin = comparison.HasEquivalenceMargin ? comparison.EquivalenceMargin : null;
        double? tellable = pairs.Where(pair => pair.HasSmallestTellable).Select(pair => (double?)pair.SmallestTellable).Max();
        double[] reach = [0, .. pairs.SelectMany(Reach)];
        double span = Math.Max(reach.Max(Math.Abs), 1e-9);
        // A band much wider than the differences is not let to squeeze them; its edges then lie outside.
        double[] bands = [.. new[] { margin, tellable }.OfType<double>().Select(band => Math.Min(band, MostBandShare * span))];
        (double from, double to) = AxisRange.Around([.. reach, .. bands, .. bands.Select(band => -band)], 1e-9);
        return new PanelModel
        {
            Heading = "Differences of means",
            X = new AxisModel($"First less second, {Wording.Quantity(ProcessWords.Lower(comparison.Name), comparison.Unit)}", from, to),
            Y = new AxisModel("Pair", 0, pairs.Length)
            {
                Ticks = [.. pairs.Select((pair, i) => new AxisTick(LotPanel.Middle(i, pairs.Length), $"{Name(shortNames, pair.First)} − {Name(shortNames, pair.Second)}"))],
            },
            ReferenceLines = [new ReferenceLineModel(LineOrientation.Vertical, 0, "", ZeroLook)],
            Series =
            [
                .. Band("equivalence margin", MarginLook, margin, pairs.Length, from, to),
                .. Band("less than the instrument can tell", TellableLook, tellable, pairs.Length, from, to),
                .. Looks.Select(look => Marks(look.Word, look.Look, pairs, comparison.ConfidencePercent)).Where(series => !series.Points.IsEmpty),
            ],
            RightNames = [.. pairs.Select((pair, i) => new AxisTick(LotPanel.Middle(i, pairs.Length), Word(pair, comparison.ConfidencePercent)))],
        };
    }

    /// <summary>What is shown of a pair: its difference goes before its equivalence, though both may be.</summary>
    internal static string Word(LotPair pair, double confidencePercent) => (IsDifferent(pair, confidencePercent), pair.Equivalent) switch
    {
        (true, true) => $"{Different}, {Equivalent}",
        (true, false) => Different,
        (false, true) => Equivalent,
        _ => NotShown,
    };

    private static bool IsDifferent(LotPair pair, double confidencePercent) =>
        pair.GamesHowell is { Refusal.Length: 0 } test && test.PValueFraction < (100 - confidencePercent) / 100;

    private static string Name(Dictionary<string, string> names, string lot) => names.GetValueOrDefault(lot) ?? ShortNames.Of(lot, MostNameCharacters);

    private static IEnumerable<double> Reach(LotPair pair) =>
        pair.GamesHowell?.Interval is { } interval ? [pair.Difference, interval.Lower, interval.Upper] : [pair.Difference];

    private static IEnumerable<SeriesModel> Band(string label, SeriesLook look, double? reach, int rows, double from, double to)
    {
        if (reach is { } half)
        {
            yield return new SeriesModel { Label = label, Look = look, Points = [], Bars = [new BarModel(Math.Max(-half, from), Math.Min(half, to), 0, rows)] };
        }
    }

    private static SeriesModel Marks(string word, SeriesLook look, LotPair[] pairs, double confidencePercent)
    {
        (LotPair Pair, double At)[] rows =
        [
            .. pairs.Select((pair, i) => (Pair: pair, At: LotPanel.Middle(i, pairs.Length)))
                .Where(row => Word(row.Pair, confidencePercent).StartsWith(word, StringComparison.Ordinal)),
        ];
        return new SeriesModel
        {
            Label = word,
            Look = look,
            // Gaps between them: the look's line is for the intervals.
            Points = [.. rows.SelectMany(row => ImmutableArray.Create(new(row.Pair.Difference, row.At), new ChartPoint(double.NaN, double.NaN)))],
            Whiskers =
            [
                .. rows.Where(row => row.Pair.GamesHowell?.Interval is not null)
                    .Select(row => new WhiskerModel(LineOrientation.Horizontal, row.At, row.Pair.GamesHowell.Interval.Lower, row.Pair.GamesHowell.Interval.Upper)),
            ],
        };
    }
}
