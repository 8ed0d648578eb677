using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Lots;

/// <summary>Two or more lots compared on one measurand: described, tested, paired, and put in words.</summary>
/// <remarks>Immutable. Outliers are flagged and stay in every figure. What cannot be computed says why (<see cref="Stated{T}"/>).</remarks>
public sealed record LotComparison
{
    /// <summary>At most so many lots are compared at once.</summary>
    public const int MostLots = 100;

    private LotComparison()
    {
    }

    /// <summary>What was measured.</summary>
    public required Measurand Measurand { get; init; }

    /// <summary>What was asked for.</summary>
    public required LotComparisonOptions Options { get; init; }

    /// <summary>The table of lots, in the order given.</summary>
    public required ImmutableArray<LotSummary> Lots { get; init; }

    /// <summary>Analysis of variance for lots of equal variance, with effect sizes.</summary>
    public required AnovaTable Anova { get; init; }

    /// <summary>Analysis of variance for lots of unequal variance (Welch 1951).</summary>
    public required Stated<FTest> WelchAnova { get; init; }

    /// <summary>Test on ranks, which wants no normal distribution.</summary>
    public required Stated<KruskalWallisTest> KruskalWallis { get; init; }

    /// <summary>Each pair of lots.</summary>
    public required ImmutableArray<LotPair> Pairs { get; init; }

    /// <summary>Variance between lots and within them.</summary>
    public required Stated<VarianceComponents> VarianceComponents { get; init; }

    /// <summary>Change over ageing time; <see langword="null"/> where no lot has ageing times.</summary>
    public required Stated<AgeingComparison>? Ageing { get; init; }

    /// <summary>Specimens per lot for the analysis of variance to show means as far apart as found; <see langword="null"/> where it cannot be said.</summary>
    public required int? SpecimensToShowDifferences { get; init; }

    /// <summary>What is shown, what is not, and what would be needed, one sentence each.</summary>
    public ImmutableArray<string> Conclusion => [.. ConclusionInWords.Of(this)];

    /// <summary>Compares lots on one measurand.</summary>
    /// <param name="measurand">What was measured.</param>
    /// <param name="lots">Two to <see cref="MostLots"/>, each with a name of its own.</param>
    /// <param name="options">Confidence, power, equivalence margin, instrument; the defaults where <see langword="null"/>.</param>
    /// <exception cref="LotException">There are fewer than two lots or too many, or two have the same name.</exception>
    public static LotComparison Of(Measurand measurand, IReadOnlyList<Lot> lots, LotComparisonOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(measurand);
        Check(lots);
        options ??= new LotComparisonOptions();
        LotSummary[] summaries = [.. lots.Select(lot => Summarise(lot, options))];
        AnovaTable anova = OneWay.Classical(lots);
        var pairwise = new Pairwise(summaries, anova, options);
        return new LotComparison
        {
            Measurand = measurand,
            Options = options,
            Lots = [.. summaries],
            Anova = anova,
            WelchAnova = OneWay.Welch(summaries),
            KruskalWallis = OneWay.KruskalWallis(lots),
            Pairs =
            [
                .. from first in Enumerable.Range(0, lots.Count)
                   from second in Enumerable.Range(first + 1, lots.Count - first - 1)
                   select pairwise.Compare(summaries[first], summaries[second]),
            ],
            VarianceComponents = Quality.Lots.VarianceComponents.Of(summaries, anova, options.Confidence),
            Ageing = Quality.Lots.Ageing.Compare(lots, options.Confidence),
            SpecimensToShowDifferences = Needed(summaries, anova, options),
        };
    }

    private static void Check(IReadOnlyList<Lot> lots)
    {
        ArgumentNullException.ThrowIfNull(lots);
        if (lots.Count is < 2 or > MostLots)
        {
            throw new LotException(
                lots.Count == 1 ? $"Only lot {lots[0].Name} was given; a comparison needs at least two lots."
                : $"{lots.Count} lots were given; a comparison takes 2 to {MostLots}.",
                nameof(lots));
        }

        if (lots.GroupBy(lot => lot.Name, StringComparer.Ordinal).FirstOrDefault(group => group.Count() > 1) is { } twice)
        {
            throw new LotException($"{twice.Count()} lots have the name {twice.Key}; each needs its own.", nameof(lots));
        }
    }

    private static LotSummary Summarise(Lot lot, LotComparisonOptions options)
    {
        var statistics = DescriptiveStatistics.Of(lot.Values, options.Confidence);
        Outlier? farthest = GrubbsTest.Farthest(lot, statistics);
        return new LotSummary(lot.Name, statistics, farthest?.PValue < options.Significance ? farthest : null);
    }

    private static int? Needed(LotSummary[] lots, AnovaTable anova, LotComparisonOptions options)
    {
        if (anova.Test.Value is null)
        {
            return null;
        }

        double deviation = Math.Sqrt(anova.WithinMeanSquare!.Value);
        double[] means = [.. lots.Select(lot => lot.Statistics.Mean)];
        return means.Max() - means.Min() > deviation / 20
            ? Sampling.SampleSize.ToShowDifferences(deviation, means, options.Power, options.Significance)
            : null;
    }
}
