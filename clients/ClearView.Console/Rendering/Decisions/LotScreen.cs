using ClearView.V1;

using Spectre.Console;

namespace ClearView.Console.Rendering.Decisions;

/// <summary>Lots compared on one measurand: what is shown, what is not, and what would be needed.</summary>
internal static class LotScreen
{
    /// <summary>Writes it.</summary>
    public static void Write(Screen screen, LotComparison comparison)
    {
        screen.Line($"[bold]{Markup.Escape(comparison.Name)}[/]{(comparison.Unit.Length > 0 ? $", {Markup.Escape(comparison.Unit)}" : "")}");
        DecisionText.WriteSentences(screen, comparison.Conclusion);
        WriteLots(screen, comparison);
        WriteTests(screen, comparison);
        WritePairs(screen, comparison);
        WriteAgeing(screen, comparison);
    }

    private static void WriteLots(Screen screen, LotComparison comparison)
    {
        var table = new DataTable().Words("Lot").Numbers("n", "Mean", "Interval", "s", "Least", "Median", "Greatest").Text("Outlier");
        foreach (var lot in comparison.Lots)
        {
            var halfWidth = lot.MeanInterval is { } interval ? (interval.Upper - interval.Lower) / 2 : 0;
            var spread = lot.HasStandardDeviation ? lot.StandardDeviation : 0;
            table.Row(
                Markup.Escape(NameText.Of(screen, lot.Lot)),
                NumberText.Plain(lot.SpecimenCount),
                NumberText.Supported(lot.Mean, halfWidth),
                lot.MeanInterval is { } known ? $"{NumberText.Supported(known.Lower, halfWidth)} to {NumberText.Supported(known.Upper, halfWidth)}" : "-",
                lot.HasStandardDeviation ? NumberText.Supported(spread, spread) : "-",
                NumberText.Supported(lot.Minimum, spread),
                NumberText.Supported(lot.Median, spread),
                NumberText.Supported(lot.Maximum, spread),
                lot.Outlier is { } outlier
                    ? Markup.Escape($"! specimen {NumberText.Plain(outlier.PositionCount)} at {NumberText.Supported(outlier.Value, spread)} (Grubbs, p {DecisionText.PValue(outlier.PValueFraction)}); counted")
                    : "");
        }
        table.Write(screen);
    }

    private static void WriteTests(Screen screen, LotComparison comparison)
    {
        var rows = new List<(string Label, string Text)>
        {
            ("Unequal variances", Test(comparison.WelchAnova, "F", "Welch")),
            ("Equal variances", Test(comparison.Anova, "F", "analysis of variance")
                + (comparison.HasOmegaSquaredFraction ? $"; ω² = {DecisionText.Share(Math.Max(0, comparison.OmegaSquaredFraction))} of the variance lies between lots" : "")),
            ("Ranks", Test(comparison.KruskalWallis, "H", "Kruskal-Wallis")),
        };
        if (comparison.Variance is { } variance)
        {
            rows.Add(("Spread (as s)", $"between lots {Root(variance.BetweenLots)}{(variance.BetweenWasNegative ? " (the estimate came out negative)" : "")}, within {Root(variance.WithinLots)}"
                + (variance.BetweenShareInterval is { } share ? $"; share between lots {DecisionText.Share(share.Lower)} to {DecisionText.Share(share.Upper)}" : "")));
        }
        if (comparison.HasInstrumentExpandedUncertainty)
        {
            rows.Add(("Instrument", $"U of one reading {DecisionText.Unit(NumberText.Supported(comparison.InstrumentExpandedUncertainty, comparison.InstrumentExpandedUncertainty), comparison.Unit)} (k = 2)"));
        }
        MethodPanel.WriteRows(screen, rows);
    }

    private static void WritePairs(Screen screen, LotComparison comparison)
    {
        var withMargin = comparison.HasEquivalenceMargin;
        var table = new DataTable().Words("Pair").Numbers("Difference", "Interval\nadjusted", "p\nadjusted");
        // Beside equivalence there is no room for the size of the effect.
        table = withMargin ? table : table.Numbers("Hedges' g");
        table = table.Words("Differ");
        if (withMargin)
        {
            table = table.Numbers("p\nwithin").Words($"Within\n± {DecisionText.Unit(comparison.EquivalenceMargin, comparison.Unit)}");
        }
        foreach (var pair in comparison.Pairs)
        {
            var test = pair.GamesHowell is { Refusal.Length: 0 } adjusted ? adjusted : pair.Welch;
            var stated = test is { Refusal.Length: 0 };
            var halfWidth = stated && test!.Interval is { } interval ? (interval.Upper - interval.Lower) / 2 : 0;
            List<string> cells =
            [
                Markup.Escape(Pair(pair)),
                Signed(NumberText.Supported(pair.Difference, halfWidth)),
                stated && test!.Interval is { } known ? $"{NumberText.Supported(known.Lower, halfWidth)} to {NumberText.Supported(known.Upper, halfWidth)}" : "-",
                stated ? DecisionText.PValue(test!.PValueFraction) : "-",
            ];
            if (!withMargin)
            {
                cells.Add(pair.HasHedgesG ? NumberText.Fixed(pair.HedgesG, 1) : "-");
            }
            cells.Add(!stated ? "not tested" : test!.PValueFraction < 1 - (comparison.ConfidencePercent / 100) ? "shown" : "not shown");
            if (withMargin)
            {
                cells.Add(pair.Equivalence is { Refusal.Length: 0 } equivalence ? DecisionText.PValue(equivalence.PValueFraction) : "-");
                cells.Add(pair.Equivalent ? "[green]✓ shown[/]" : "[yellow]? not shown[/]");
            }
            table.Row([.. cells]);
        }
        table.Write(screen);
        screen.Line($"Pairs are adjusted for all of them (Games and Howell), at {NumberText.Plain(comparison.ConfidencePercent)} % confidence.");
        DecisionText.WriteSentences(screen, comparison.Pairs
            .Select(pair => pair.GamesHowell is { Refusal.Length: > 0 } refused ? $"{pair.First} and {pair.Second}: {refused.Refusal}" : "")
            .Where(text => text.Length > 0));
        if (comparison.HasNeededSpecimenCount)
        {
            screen.Line($"To show means as far apart as found: {VerdictText.Counted((int)comparison.NeededSpecimenCount, "specimen")} per lot.");
        }
    }

    private static void WriteAgeing(Screen screen, LotComparison comparison)
    {
        if (comparison.Ageing is not { } ageing)
        {
            return;
        }
        screen.Line();
        screen.Line($"[bold]Ageing[/]{(ageing.Refusal.Length > 0 ? $": {Markup.Escape(ageing.Refusal)}" : "")}");
        if (ageing.Refusal.Length > 0)
        {
            return;
        }
        var table = new DataTable().Words("Lot").Numbers("At 0 h", "Change per 1000 h", "Interval");
        const double Hours = 1000;
        foreach (var slope in ageing.Slopes)
        {
            var halfWidth = slope.Interval is { } interval ? Hours * (interval.Upper - interval.Lower) / 2 : 0;
            table.Row(
                Markup.Escape(NameText.Of(screen, slope.Lot)),
                NumberText.Supported(slope.Initial, halfWidth),
                Signed(NumberText.Supported(Hours * slope.SlopePerH, halfWidth)),
                slope.Interval is { } known ? $"{NumberText.Supported(Hours * known.Lower, halfWidth)} to {NumberText.Supported(Hours * known.Upper, halfWidth)}" : "-");
        }
        table.Write(screen);
        MethodPanel.WriteRows(screen, [("Equal change", Test(ageing.EqualSlopes, "F", "lines of one slope against lines of their own"))]);
    }

    private static string Test(StatedTest? test, string symbol, string name) => test switch
    {
        null => "-",
        { Refusal.Length: > 0 } => $"{name}: {test.Refusal}",
        _ => $"{name}: {symbol} = {NumberText.Fixed(test.Statistic, 2)}, p {(test.PValueFraction < 0.0005 ? "" : "= ")}{DecisionText.PValue(test.PValueFraction)}",
    };

    private static string Pair(LotPair pair)
    {
        const int Width = 16;
        return pair.First.Length + pair.Second.Length <= Width
            ? $"{pair.First} − {pair.Second}"
            : $"{NameText.Fold(pair.First, Width)} −\n{NameText.Fold(pair.Second, Width)}";
    }

    private static string Root(double variance) => variance > 0 ? NumberText.Supported(Math.Sqrt(variance), Math.Sqrt(variance)) : "0";

    private static string Signed(string number) => number.StartsWith('-') || number.All(c => c is '0' or '.') ? number : $"+{number}";
}
