using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>A row for each lot: quartiles, median, mean with its interval, and every specimen.</summary>
internal static class LotPanel
{
    private const double BoxReach = 0.18;
    private const double MeanRise = 0.33;
    private const double PointSpread = 0.3;
    private const double LeastSpanShare = 0.005;
    private const int MostNameCharacters = 28;
    private const int ManySpecimens = 60;

    // The golden section: neighbours in the list never come to stand beside one another.
    private const double JitterStep = 0.6180339887498949;

    private static readonly SeriesLook BoxLook = new(LineKind.None, MarkKind.None, Ink.Blue) { Fill = FillKind.Light };
    private static readonly SeriesLook MedianLook = new(LineKind.Solid, MarkKind.None, Ink.Blue) { LineWidth = 2.4 };
    private static readonly SeriesLook PointLook = new(LineKind.None, MarkKind.OpenCircle, Ink.Black) { MarkSize = 5 };
    private static readonly SeriesLook CrowdLook = new(LineKind.None, MarkKind.OpenCircle, Ink.Grey) { MarkSize = 3 };
    private static readonly SeriesLook OutlierLook = new(LineKind.None, MarkKind.DiagonalCross, Ink.Vermilion) { MarkSize = 9 };
    private static readonly SeriesLook MeanLook = new(LineKind.Solid, MarkKind.FilledDiamond, Ink.Green) { LineWidth = 1.6, MarkSize = 8 };

    public static PanelModel Build(LotComparison comparison)
    {
        LotSummary[] lots = [.. comparison.Lots];
        string[] names = ShortNames.Of([.. lots.Select(lot => lot.Lot)], MostNameCharacters);
        double[] values = [.. lots.SelectMany(Reach)];
        (double from, double to) = AxisRange.Around(values, Math.Max(values.Max(Math.Abs) * LeastSpanShare, 1e-6));
        return new PanelModel
        {
            Heading = "Specimens",
            X = new AxisModel(Wording.Quantity(comparison.Name, comparison.Unit), from, to),
            Y = new AxisModel("Lot", 0, lots.Length)
            {
                Ticks = [.. names.Select((name, i) => new AxisTick(Middle(i, lots.Length), $"{name} ({lots[i].SpecimenCount})"))],
            },
            Series =
            [
                new SeriesModel
                {
                    Label = "specimen",
                    Look = lots.Max(lot => lot.Value.Count) > ManySpecimens ? CrowdLook : PointLook,
                    Points = [.. lots.SelectMany((lot, i) => Specimens(lot, Middle(i, lots.Length)))],
                },
                new SeriesModel
                {
                    Label = "lower to upper quartile",
                    Look = BoxLook,
                    Points = [],
                    Bars = [.. lots.Select((lot, i) => new BarModel(lot.LowerQuartile, lot.UpperQuartile, Middle(i, lots.Length) - BoxReach, Middle(i, lots.Length) + BoxReach))],
                },
                new SeriesModel
                {
                    Label = "median",
                    Look = MedianLook,
                    Points =
                    [
                        .. lots.SelectMany((lot, i) => ImmutableArray.Create(
                            new(lot.Median, Middle(i, lots.Length) - BoxReach), new ChartPoint(lot.Median, Middle(i, lots.Length) + BoxReach), new(double.NaN, double.NaN))),
                    ],
                },
                new SeriesModel
                {
                    Label = "mean with interval",
                    Look = MeanLook,
                    Points = [.. lots.SelectMany((lot, i) => ImmutableArray.Create(new(lot.Mean, Middle(i, lots.Length) + MeanRise), new ChartPoint(double.NaN, double.NaN)))],
                    Whiskers =
                    [
                        .. lots.Select((lot, i) => (Lot: lot, At: Middle(i, lots.Length) + MeanRise)).Where(pair => pair.Lot.MeanInterval is not null)
                            .Select(pair => new WhiskerModel(LineOrientation.Horizontal, pair.At, pair.Lot.MeanInterval.Lower, pair.Lot.MeanInterval.Upper)),
                    ],
                },
                .. Outliers(lots),
            ],
            Annotations =
            [
                .. lots.Select((lot, i) => (Lot: lot, Row: i)).Where(pair => pair.Lot.Outlier is not null)
                    .Select(pair => new AnnotationModel(pair.Lot.Outlier.Value, Middle(pair.Row, lots.Length), "outlier", AnnotationAnchor.Above) { Loose = true }),
            ],
        };
    }

    /// <summary>The first lot stands at the top.</summary>
    internal static double Middle(int row, int count) => count - row - 0.5;

    private static IEnumerable<double> Reach(LotSummary lot) =>
        [lot.Minimum, lot.Maximum, lot.Mean, .. lot.MeanInterval is { } interval ? [interval.Lower, interval.Upper] : Array.Empty<double>()];

    private static IEnumerable<SeriesModel> Outliers(LotSummary[] lots)
    {
        ChartPoint[] points =
            [.. lots.Select((lot, i) => (Lot: lot, Row: i)).Where(pair => pair.Lot.Outlier is not null)
                .Select(pair => new ChartPoint(pair.Lot.Outlier.Value, Middle(pair.Row, lots.Length)))];
        if (points.Length > 0)
        {
            yield return new SeriesModel { Label = "outlier (Grubbs), still counted", Look = OutlierLook, Points = [.. points] };
        }
    }

    /// <summary>The specimens of a lot, but for the outlier, which has a mark of its own.</summary>
    private static IEnumerable<ChartPoint> Specimens(LotSummary lot, double middle)
    {
        double[] values = [.. lot.Value.Where((_, i) => lot.Outlier is null || i + 1 != lot.Outlier.PositionCount)];
        if (values.Length > LotComparisonChart.MostSpecimens)
        {
            double[] ranked = [.. values.Order()];
            values = [.. Enumerable.Range(0, LotComparisonChart.MostSpecimens)
                .Select(i => ranked[(int)((long)i * (ranked.Length - 1) / (LotComparisonChart.MostSpecimens - 1))])];
        }

        return values.Select((value, i) => new ChartPoint(value, middle + (values.Length == 1 ? 0 : PointSpread * ((i * JitterStep % 1) - 0.5))));
    }
}
