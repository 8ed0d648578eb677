using System.Collections.Immutable;
using System.Globalization;

using ClearView.Plotting.Charts;
using ClearView.Plotting.Model;
using ClearView.Plotting.Rendering;
using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>Lots side by side: every specimen, the differences of their means with intervals, and change over ageing time.</summary>
public static class LotComparisonChart
{
    /// <summary>Most pairs of one chart; of more those with the largest differences are drawn.</summary>
    public const int MostPairs = 20;

    /// <summary>Most specimens of one lot that are marked one by one.</summary>
    public const int MostSpecimens = 2000;

    private const float LotRowPt = 34;
    private const float ManyLotsRowPt = 26;
    private const int ManyLots = 8;
    private const float PairRowPt = 19;
    private const float EdgesPt = 80;
    private const float AgeingPt = 260;

    /// <summary>Decides what the chart shows.</summary>
    /// <param name="comparison">The comparison on one measurand.</param>
    /// <exception cref="ChartRefusedException">There is no lot.</exception>
    public static ChartModel Build(LotComparison comparison)
    {
        ArgumentNullException.ThrowIfNull(comparison);
        if (comparison.Lots.Count == 0)
        {
            throw new ChartRefusedException("The comparison has no lot to draw.");
        }

        var panels = ImmutableArray.CreateBuilder<PanelModel>();
        panels.Add(LotPanel.Build(comparison) with { Weight = EdgesPt + ((comparison.Lots.Count > ManyLots ? ManyLotsRowPt : LotRowPt) * comparison.Lots.Count) });
        LotPair[] pairs = Shown(comparison);
        if (pairs.Length > 0)
        {
            panels.Add(PairPanel.Build(comparison, pairs) with { Weight = EdgesPt + (PairRowPt * pairs.Length) });
        }

        if (comparison.Lots.Any(lot => lot.AgeingHours.Count > 0))
        {
            panels.Add(AgeingPanel.Build(comparison) with { Weight = AgeingPt });
        }

        var chart = new ChartModel
        {
            Title = $"Comparison of lots: {ProcessWords.Lower(comparison.Name)}",
            Subtitle = $"{comparison.Lots.Count} lots, {comparison.Lots.Sum(lot => lot.SpecimenCount)} specimens",
            Panels = panels.ToImmutable(),
            Notes = Notes(comparison, pairs.Length),
            Footer = Footer(comparison),
        };
        return chart with { HeightPt = MathF.Ceiling((float)chart.Panels.Sum(panel => panel.Weight) + ChartPainter.RoomOutsidePanels(chart)) };
    }

    /// <summary>The pairs that are drawn, the largest difference first.</summary>
    internal static LotPair[] Shown(LotComparison comparison) =>
        [.. comparison.Pairs.OrderByDescending(pair => Math.Abs(pair.Difference)).Take(MostPairs)];

    private static ImmutableArray<string> Notes(LotComparison comparison, int pairs)
    {
        uint most = comparison.Lots.Max(lot => lot.SpecimenCount);
        return
        [
            .. comparison.Conclusion.Take(2),
            .. comparison.Pairs.Count > pairs ? [$"The {pairs} largest differences of {comparison.Pairs.Count} pairs are drawn."] : ImmutableArray<string>.Empty,
            .. most > MostSpecimens ? [$"Of lots with more than {MostSpecimens} specimens {MostSpecimens} are marked, evenly by rank; boxes and means rest on all."] : ImmutableArray<string>.Empty,
            .. comparison.Ageing is { Refusal.Length: > 0 } ageing ? [$"Ageing: {ageing.Refusal}"] : ImmutableArray<string>.Empty,
        ];
    }

    private static ImmutableArray<string> Footer(LotComparison comparison)
    {
        string confidence = Wording.Number(comparison.ConfidencePercent);
        string unit = Wording.Suffix(comparison.Unit);
        string margin = comparison.HasEquivalenceMargin ? $" Equivalence margin ± {Wording.Number(comparison.EquivalenceMargin)}{unit}, as stated." : "";
        string instrument = comparison.HasInstrumentExpandedUncertainty
            ? $" Instrument: U = {Digits.Two(comparison.InstrumentExpandedUncertainty)}{unit} (k = 2) for one reading."
            : "";
        return
        [
            $"Tests: {Test("Welch's F", comparison.WelchAnova)}; {Test("Kruskal and Wallis' H", comparison.KruskalWallis)}. Differences after Games and Howell, intervals of {confidence} % for all pairs together; means with intervals of {confidence} %.",
            .. (margin + instrument).Trim() is { Length: > 0 } stated ? [stated] : ImmutableArray<string>.Empty,
        ];
    }

    private static string Test(string name, StatedTest? test) => test switch
    {
        null => $"{name} not given",
        { Refusal.Length: > 0 } => $"{name}: no result ({test.Refusal.TrimEnd('.')})",
        _ => string.Create(CultureInfo.InvariantCulture, $"{name} = {test.Statistic:0.00}, p {(test.PValueFraction < 0.001 ? "below 0.001" : $"= {test.PValueFraction:0.000}")}"),
    };
}
