using System.Collections.Immutable;

using ClearView.Quality.Lots;

namespace ClearView.Contract.Studies;

/// <summary>Writes a comparison of lots to the wire.</summary>
internal static class LotWriter
{
    public static V1.LotComparison Write(LotComparison comparison, ImmutableArray<Lot> lots)
    {
        var wire = new V1.LotComparison
        {
            Measurand = comparison.Measurand.Id,
            Name = comparison.Measurand.Name,
            Unit = comparison.Measurand.Unit,
            Conclusion = { comparison.Conclusion },
            Lots = { comparison.Lots.Zip(lots, Write) },
            Anova = TestWriter.Write(comparison.Anova.Test),
            WelchAnova = TestWriter.Write(comparison.WelchAnova),
            KruskalWallis = TestWriter.Write(comparison.KruskalWallis),
            Pairs = { comparison.Pairs.Select(Write) },
            Variance = comparison.VarianceComponents.Value is { } components ? Write(components) : null,
            Ageing = comparison.Ageing is { } ageing ? Write(ageing) : null,
            ConfidencePercent = 100 * comparison.Options.Confidence,
        };
        if (comparison.Anova.EtaSquared is { } eta)
        {
            wire.EtaSquaredFraction = eta;
        }

        if (comparison.Anova.OmegaSquared is { } omega)
        {
            wire.OmegaSquaredFraction = omega;
        }

        if (comparison.SpecimensToShowDifferences is { } needed)
        {
            wire.NeededSpecimenCount = (uint)needed;
        }

        if (comparison.Options.EquivalenceMargin is { } margin)
        {
            wire.EquivalenceMargin = margin;
        }

        if (comparison.Options.ExpandedUncertainty is { } uncertainty)
        {
            wire.InstrumentExpandedUncertainty = uncertainty;
        }

        return wire;
    }

    private static V1.LotSummary Write(LotSummary summary, Lot lot)
    {
        var wire = new V1.LotSummary
        {
            Lot = summary.Name,
            SpecimenCount = (uint)summary.Statistics.Count,
            Mean = summary.Statistics.Mean,
            MeanInterval = TestWriter.Write(summary.Statistics.MeanInterval),
            Minimum = summary.Statistics.Minimum,
            LowerQuartile = summary.Statistics.LowerQuartile,
            Median = summary.Statistics.Median,
            UpperQuartile = summary.Statistics.UpperQuartile,
            Maximum = summary.Statistics.Maximum,
            Value = { lot.Values },
            Outlier = summary.Outlier is { } outlier
                ? new V1.LotOutlier
                {
                    PositionCount = (uint)outlier.Position + 1,
                    Value = outlier.Value,
                    GrubbsStatistic = outlier.G,
                    PValueFraction = outlier.PValue,
                }
                : null,
        };
        if (summary.Statistics.StandardDeviation is { } deviation)
        {
            wire.StandardDeviation = deviation;
        }

        if (lot.AgeingTimesH is { } times)
        {
            wire.AgeingHours.AddRange(times);
        }

        return wire;
    }

    private static V1.LotPair Write(LotPair pair)
    {
        var wire = new V1.LotPair
        {
            First = pair.First,
            Second = pair.Second,
            Difference = pair.Difference,
            Welch = TestWriter.Write(pair.Welch),
            TukeyKramer = TestWriter.Write(pair.TukeyKramer),
            GamesHowell = TestWriter.Write(pair.GamesHowell),
            Equivalence = pair.Equivalence is { } equivalence ? TestWriter.Write(equivalence) : null,
            Equivalent = pair.Equivalence?.Value is { Shown: true },
            HedgesGInterval = TestWriter.Write(pair.Effect.Value?.Interval),
        };
        if (pair.Effect.Value is { } effect)
        {
            wire.HedgesG = effect.HedgesG;
        }

        if (pair.SmallestTellable is { } least)
        {
            wire.SmallestTellable = least;
        }

        if (pair.SpecimensToShowDifference is { } difference)
        {
            wire.DifferenceSpecimenCount = (uint)difference;
        }

        if (pair.SpecimensToShowEquivalence is { } equal)
        {
            wire.EquivalenceSpecimenCount = (uint)equal;
        }

        return wire;
    }

    private static V1.LotVariance Write(VarianceComponents components) => new()
    {
        BetweenLots = components.BetweenLots,
        WithinLots = components.WithinLots,
        BetweenWasNegative = components.BetweenWasNegative,
        BetweenShareInterval = TestWriter.Write(components.ShareInterval),
    };

    private static V1.AgeingComparison Write(Stated<AgeingComparison> stated)
    {
        var wire = new V1.AgeingComparison { Refusal = stated.Explanation ?? "" };
        if (stated.Value is not { } ageing)
        {
            return wire;
        }

        wire.Slopes.AddRange(ageing.Slopes.Select(slope => new V1.AgeingSlope
        {
            Lot = slope.Lot,
            SlopePerH = slope.SlopePerH,
            Interval = TestWriter.Write(slope.Interval),
            Initial = slope.Initial,
        }));
        wire.EqualSlopes = TestWriter.Write(ageing.EqualSlopes);
        wire.Pairs.AddRange(ageing.Pairs.Select(pair => new V1.SlopePair
        {
            First = pair.First,
            Second = pair.Second,
            DifferencePerH = pair.DifferencePerH,
            Test = TestWriter.Write(pair.Test),
        }));
        return wire;
    }
}
