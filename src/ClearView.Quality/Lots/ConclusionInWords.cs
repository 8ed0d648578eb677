using System.Globalization;

using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Lots;

/// <summary>Says in plain words what a comparison shows, what it does not, and what would be needed.</summary>
internal static class ConclusionInWords
{
    public static IEnumerable<string> Of(LotComparison comparison)
    {
        yield return Overall(comparison);
        foreach (LotPair pair in comparison.Pairs)
        {
            yield return Difference(comparison, pair);
            if (pair.Equivalence is { } equivalence)
            {
                yield return Equivalence(comparison, pair, equivalence);
            }

            if (pair.BelowInstrument == true)
            {
                yield return $"{pair.First} and {pair.Second} lie {Figure(comparison, Math.Abs(pair.Difference))} apart, less than the"
                    + $" {Figure(comparison, pair.SmallestTellable!.Value)} that the instrument can tell between two readings.";
            }
        }

        foreach (LotSummary lot in comparison.Lots.Where(lot => lot.Outlier is not null))
        {
            yield return $"Specimen {lot.Outlier!.Position + 1} of {lot.Name}, at {Figure(comparison, lot.Outlier.Value)}, lies unusually far"
                + $" from the others ({Probability(lot.Outlier.PValue)}, Grubbs); it is kept in every figure.";
        }

        if (comparison.Ageing is { } ageing)
        {
            yield return Ageing(comparison, ageing);
        }
    }

    // The test that does not take variances to be equal leads; where a lot's own spread is unknown, the classical one.
    private static string Overall(LotComparison comparison)
    {
        Stated<FTest> test = comparison.WelchAnova.Value is null ? comparison.Anova.Test : comparison.WelchAnova;
        string name = comparison.WelchAnova.Value is null ? "analysis of variance" : "Welch's analysis of variance";
        if (test.Value is not { } f)
        {
            return $"Whether the lots differ in {MeasurandInWords.Name(comparison.Measurand)} cannot be tested: {test.Explanation}";
        }

        return f.PValue < comparison.Options.Significance
            ? $"The lots differ in {MeasurandInWords.Name(comparison.Measurand)}: {Probability(f.PValue)} ({name})."
            : $"It is not shown that the lots differ in {MeasurandInWords.Name(comparison.Measurand)}: {Probability(f.PValue)} ({name}). That is not proof that they are alike."
                + (comparison.SpecimensToShowDifferences is { } needed
                    ? $" If the means truly lay as found, {needed} specimens per lot would show it with {Percent(comparison.Options.Power)} probability."
                    : string.Empty);
    }

    private static string Difference(LotComparison comparison, LotPair pair)
    {
        if (pair.GamesHowell.Value is not { } test)
        {
            return $"{pair.First} and {pair.Second} lie {Figure(comparison, Math.Abs(pair.Difference))} apart, which cannot be tested: {pair.GamesHowell.Explanation}";
        }

        // Said from the higher lot, so that the difference and its interval have one direction.
        (double low, double high) = pair.Difference < 0 ? (-test.Interval.Upper, -test.Interval.Lower) : (test.Interval.Lower, test.Interval.Upper);
        string size = $"{Figure(comparison, Math.Abs(pair.Difference))} ({Figure(comparison, low)} to {Figure(comparison, high)}, {Probability(test.PValue)})";
        if (test.PValue < comparison.Options.Significance)
        {
            return $"{pair.First} is {(pair.Difference > 0 ? "higher" : "lower")} than {pair.Second} by {size}.";
        }

        string needed = pair.SpecimensToShowDifference is { } specimens
            ? $" A true difference of this size would take {specimens} specimens per lot to show with {Percent(comparison.Options.Power)} probability."
            : string.Empty;
        return $"A difference between {pair.First} and {pair.Second} is not shown: {size}.{needed}";
    }

    private static string Equivalence(LotComparison comparison, LotPair pair, Stated<EquivalenceTest> equivalence)
    {
        if (equivalence.Value is not { } test)
        {
            return $"Whether {pair.First} and {pair.Second} are equivalent cannot be tested: {equivalence.Explanation}";
        }

        string margin = Figure(comparison, test.Margin);
        if (test.Shown)
        {
            return $"{pair.First} and {pair.Second} are equivalent within {margin} ({Probability(test.PValue)}, two one-sided tests).";
        }

        return $"Equivalence of {pair.First} and {pair.Second} within {margin} is not shown ({Probability(test.PValue)})."
            + (Math.Abs(pair.Difference) >= test.Margin ? " Their means lie farther apart than that."
                : pair.SpecimensToShowEquivalence is { } needed
                    ? $" If the means truly lay as found, {needed} specimens per lot would show it with at least {Percent(comparison.Options.Power)} probability."
                    : string.Empty);
    }

    private static string Ageing(LotComparison comparison, Stated<AgeingComparison> ageing)
    {
        if (ageing.Value is not { } value)
        {
            return $"Ageing cannot be compared: {ageing.Explanation}";
        }

        if (value.EqualSlopes.Value is not { } test)
        {
            return $"Rates of ageing cannot be tested: {value.EqualSlopes.Explanation}";
        }

        AgeingSlope fastest = value.Slopes.MaxBy(slope => slope.SlopePerH)!;
        AgeingSlope slowest = value.Slopes.MinBy(slope => slope.SlopePerH)!;
        bool shown = value.Pairs.Any(pair => pair.Test.Interval is { Lower: > 0 } or { Upper: < 0 });
        string range = $"from {Figure(comparison, slowest.SlopePerH * 1000)} ({slowest.Lot}) to {Figure(comparison, fastest.SlopePerH * 1000)} ({fastest.Lot}) per 1000 h";
        return shown
            ? $"The lots age at different rates, {range} ({Probability(test.PValue)}, analysis of covariance; at least one pair differs)."
            : $"Different rates of ageing are not shown: {range} ({Probability(test.PValue)}, analysis of covariance).";
    }

    private static string Figure(LotComparison comparison, double value) =>
        comparison.Measurand.Unit.Length == 0 ? Rounded(value) : $"{Rounded(value)} {comparison.Measurand.Unit}";

    private static string Probability(double p) => p < 0.001 ? "p < 0.001" : $"p = {p.ToString("0.000", CultureInfo.InvariantCulture)}";

    private static string Percent(double share) => $"{(100 * share).ToString("0.#", CultureInfo.InvariantCulture)} %";

    // Three significant digits, without exponent.
    private static string Rounded(double value)
    {
        if (value == 0)
        {
            return "0";
        }

        int decimals = Math.Clamp(2 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 12);
        return value.ToString($"F{decimals}", CultureInfo.InvariantCulture);
    }
}
