using System.Collections.Immutable;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.Plotting.Theme;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>Values over ageing time, with a straight line through those of each lot.</summary>
internal static class AgeingPanel
{
    private const int MostNameCharacters = 24;
    private const double LeastSpanHours = 1;
    private const double LeastSpanShare = 0.005;

    private static readonly ChartPoint Gap = new(double.NaN, double.NaN);
    private static readonly ImmutableArray<LineKind> Lines = [LineKind.Solid, LineKind.Dashed, LineKind.DashDotted, LineKind.Dotted];

    public static PanelModel Build(LotComparison comparison)
    {
        LotSummary[] lots = [.. comparison.Lots.Where(lot => lot.AgeingHours.Count > 0)];
        string[] names = ShortNames.Of([.. lots.Select(lot => lot.Lot)], MostNameCharacters);
        double[] hours = [.. lots.SelectMany(lot => lot.AgeingHours)];
        double[] values = [.. lots.SelectMany(lot => lot.Value)];
        SeriesModel[] series = [.. lots.Select((lot, i) => Series(lot, names[i], i, comparison))];
        (double from, double to) = AxisRange.Around(hours, LeastSpanHours);
        (double low, double high) = AxisRange.Around(
            [.. values, .. series.SelectMany(one => one.Points).Select(point => point.Y)], Math.Max(values.Max(Math.Abs) * LeastSpanShare, 1e-6));
        return new PanelModel
        {
            Heading = "Ageing",
            X = new AxisModel("Ageing time (h)", from, to),
            Y = new AxisModel(Wording.Quantity(comparison.Name, comparison.Unit), low, high),
            Series = [.. series],
        };
    }

    /// <summary>First the line, which carries no marks, then the specimens, which no line joins.</summary>
    private static SeriesModel Series(LotSummary lot, string name, int index, LotComparison comparison)
    {
        AgeingSlope? slope = comparison.Ageing is { Refusal.Length: 0 } ageing ? ageing.Slopes.FirstOrDefault(one => one.Lot == lot.Lot) : null;
        (double from, double to) = (lot.AgeingHours.Min(), lot.AgeingHours.Max());
        ImmutableArray<ChartPoint> line = slope is null ? [] : [At(slope, from), At(slope, to), Gap];
        SeriesLook marks = SeriesLooks.Marks(index % SeriesLooks.MarkCount);
        return new SeriesModel
        {
            Label = slope is null ? name : $"{name}: {Figure(slope)}{Wording.Suffix(comparison.Unit)}/h",
            Look = marks with { Line = Lines[index / SeriesLooks.MarkCount % Lines.Length], LineWidth = 1.2, MarkSize = 6 },
            Points = [.. line, .. lot.AgeingHours.Zip(lot.Value).SelectMany(pair => ImmutableArray.Create(new(pair.First, pair.Second), Gap))],
            MarkOffset = line.Length,
        };
    }

    private static ChartPoint At(AgeingSlope slope, double hours) => new(hours, slope.Initial + (hours * slope.SlopePerH));

    private static string Figure(AgeingSlope slope)
    {
        double half = slope.Interval is { } interval ? (interval.Upper - interval.Lower) / 2 : Math.Abs(slope.SlopePerH);
        return slope.SlopePerH > 0 ? "+" + Digits.Beside(slope.SlopePerH, half) : Digits.Beside(slope.SlopePerH, half);
    }
}
