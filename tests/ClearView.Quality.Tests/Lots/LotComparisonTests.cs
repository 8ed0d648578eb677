using ClearView.Quality.Lots;
using ClearView.Quality.Tests.Reference;

namespace ClearView.Quality.Tests.Lots;

public sealed class LotComparisonTests
{
    // NIST/SEMATECH e-Handbook 1.3.5.17.1, readings of a mass spectrometer (Tietjen and Moore 1972): G = 2.468765; from memory.
    [Fact]
    public void Outlier_OfThePublishedExample_IsFlaggedAndKept()
    {
        Lot spectrometer = new("spectrometer", [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57]);

        LotSummary summary = LotComparison.Of(Samples.Haze, [spectrometer, new("other", [200, 201, 202])]).Lots[0];

        Assert.Equal(7, summary.Outlier!.Position);
        Assert.Equal(2.468765, summary.Outlier.G, 0.0000006);
        Assert.Equal(8, summary.Statistics.Count);
    }

    // The critical value of Grubbs' test for 8 values at 5 %, two-sided, is 2.1266 in tables (from memory): at it p is 0.05.
    [Fact]
    public void Outlier_PValue_IsTheTablesSignificance()
    {
        double[] deviations = [-1, -0.7, -0.2, 0, 0.1, 0.4, 0.6];
        double outlying = Quality.Distributions.MonotoneRoot.Find(x => G(x) - 2.1266, 2, 0.5);

        var lot = new Lot("one", [.. deviations, outlying]);
        Outlier farthest = GrubbsTest.Farthest(lot, Quality.Descriptive.DescriptiveStatistics.Of(lot.Values))!;

        Assert.Equal(0.05, farthest.PValue, 2e-4);
        double G(double x)
        {
            var statistics = Quality.Descriptive.DescriptiveStatistics.Of([.. deviations, x]);
            return (x - statistics.Mean) / statistics.StandardDeviation!.Value;
        }
    }

    // Balanced lots: n0 = n, σ²_between = (MSB − MSW)/n, and the limits of the share follow from F alone (Searle, Casella and
    // McCulloch, "Variance Components"): (F/Fq − 1)/(n + F/Fq − 1).
    [Fact]
    public void VarianceComponents_OfBalancedLots_AreTheClosedForm()
    {
        Lot[] lots = NistAnova.SiRstv;
        AnovaTable table = OneWay.Classical(lots);
        double[] quantiles = ReferenceR.Ask("reference_r.R", "fisher_quantile", [0.025, 0.975], [4], [20]);

        VarianceComponents components = LotComparison.Of(Samples.Haze, lots).VarianceComponents.Value!;

        Close.Assert((table.BetweenMeanSquare - table.WithinMeanSquare!.Value) / 5, components.BetweenLots, 1e-11);
        Assert.Equal(0, components.ShareInterval.Lower);
        double ratio = table.Test.Value!.F / quantiles[1];
        Close.Assert((ratio - 1) / (5 + ratio - 1), components.ShareInterval.Upper, 1e-9);
    }

    // Unequal lots, seeded: 95 % intervals of the share cover the true one in 95 % of 1000 draws, within three binomial deviations.
    [Fact]
    public void VarianceComponents_OfUnequalLots_CoverTheTruth()
    {
        var random = new Random(4711);
        int[] sizes = [3, 5, 8, 12, 4];
        int covered = 0;
        for (int draw = 0; draw < 1000; draw++)
        {
            Lot[] lots =
            [
                .. sizes.Select((size, index) =>
                {
                    double centre = MathNet.Numerics.Distributions.Normal.Sample(random, 0, Math.Sqrt(0.5));
                    return new Lot($"{index}", [.. Enumerable.Range(0, size).Select(_ => MathNet.Numerics.Distributions.Normal.Sample(random, centre, 1))]);
                }),
            ];
            LotSummary[] summaries = [.. lots.Select(lot => new LotSummary(lot.Name, Quality.Descriptive.DescriptiveStatistics.Of(lot.Values), null))];
            covered += Quality.Lots.VarianceComponents.Of(summaries, OneWay.Classical(lots), 0.95).Value!.ShareInterval.Contains(1.0 / 3) ? 1 : 0;
        }

        Assert.InRange(covered, 930, 970);
    }

    // Two lots of 10: s = 1 each, one apart: d = 1, and J with 18 degrees of freedom is 0.9576 (Hedges 1981, 1 − 3/(4·18 − 1) = 0.9577).
    [Fact]
    public void Effect_IsHedgesG_WithItsNoncentralInterval()
    {
        double[] ten = [-1.5, -1.1, -0.8, -0.4, -0.1, 0.1, 0.4, 0.8, 1.1, 1.5];
        double scale = 1 / Quality.Descriptive.DescriptiveStatistics.Of(ten).StandardDeviation!.Value;
        Lot[] lots = [new("a", [.. ten.Select(x => 1 + (x * scale))]), new("b", [.. ten.Select(x => x * scale)])];

        EffectSize effect = LotComparison.Of(Samples.Haze, lots).Pairs[0].Effect.Value!;

        Assert.Equal(0.9577, effect.HedgesG, 1e-4);
        double t = Math.Sqrt(5);
        double Ncp(double end) => end / 0.95765 * t;
        double[] tails = ReferenceR.Ask("reference_r.R", "pt", [t], [18], [Ncp(effect.Interval.Lower), Ncp(effect.Interval.Upper)]);
        Assert.Equal(0.975, tails[0], 1e-4);
        Assert.Equal(0.025, tails[1], 1e-4);
    }

    // η² = SSB/SST and ω² of SiRstv from its certified squares, by hand.
    [Fact]
    public void Anova_EffectSizes_FollowFromTheSquares()
    {
        AnovaTable table = OneWay.Classical(NistAnova.SiRstv);

        Close.Assert(1.90999039051129E-01, table.EtaSquared!.Value, 1e-12);
        Close.Assert((0.0511462616 - (4 * 0.010831828)) / (0.26778282160 + 0.010831828), table.OmegaSquared!.Value, 1e-9);
    }

    [Fact]
    public void Of_OneLot_IsRefusedByName()
    {
        LotException error = Assert.Throws<LotException>(() => LotComparison.Of(Samples.Haze, [new("Amber", [1, 2])]));

        Assert.Equal("lots", error.ParamName);
        Assert.Contains("Amber", error.Message, StringComparison.Ordinal);
        Assert.Throws<LotException>(() => LotComparison.Of(Samples.Haze, []));
        Assert.Throws<LotException>(() => LotComparison.Of(Samples.Haze, [new("Amber", [1]), new("Amber", [2])]));
    }

    [Fact]
    public void Of_NoSpread_IsStatedEverywhere()
    {
        LotComparison comparison = LotComparison.Of(
            Samples.Haze, [new("Amber", [2, 2, 2]), new("Birch", [3, 3])], new LotComparisonOptions { EquivalenceMargin = 2 });

        Assert.Equal(DegenerateReason.NoSpread, comparison.Anova.Test.Reason);
        Assert.Equal(DegenerateReason.NoSpread, comparison.WelchAnova.Reason);
        Assert.Equal(DegenerateReason.NoSpread, comparison.VarianceComponents.Reason);
        LotPair pair = Assert.Single(comparison.Pairs);
        Assert.Equal(-1, pair.Difference);
        Assert.Equal(DegenerateReason.NoSpread, pair.Welch.Reason);
        Assert.Equal(DegenerateReason.NoSpread, pair.TukeyKramer.Reason);
        Assert.Equal(DegenerateReason.NoSpread, pair.Equivalence!.Reason);
        Assert.Equal(DegenerateReason.NoSpread, pair.Effect.Reason);
        Assert.DoesNotContain(comparison.Conclusion, sentence => sentence.Contains("NaN", StringComparison.Ordinal));
        Assert.Equal(DegenerateReason.NoSpread, LotComparison.Of(Samples.Haze, [new("a", [1, 1]), new("b", [1])]).KruskalWallis.Reason);
    }

    [Fact]
    public void Of_SingleSpecimens_SayThatTheyAreTooFew()
    {
        LotComparison comparison = LotComparison.Of(Samples.Haze, [new("Amber", [2]), new("Birch", [3])]);

        Assert.Equal(DegenerateReason.TooFewSpecimens, comparison.Anova.Test.Reason);
        Assert.Equal(DegenerateReason.TooFewSpecimens, comparison.Pairs[0].Welch.Reason);
        Assert.Contains(comparison.Conclusion, sentence => sentence.Contains("one specimen", StringComparison.Ordinal));
    }

    // One lot without spread still compares with one that has it; its own F weights are stated away.
    [Fact]
    public void Of_OneLotWithoutSpread_StillTestsThePair()
    {
        LotComparison comparison = LotComparison.Of(Samples.Haze, [new("Amber", [2, 2, 2]), new("Birch", [3, 4, 5])]);

        Assert.Equal(DegenerateReason.NoSpread, comparison.WelchAnova.Reason);
        Assert.Equal(2, comparison.Pairs[0].Welch.Value!.DegreesOfFreedom, 1e-12);
    }

    [Fact]
    public void BelowInstrument_IsSaidOnBothSides()
    {
        Lot[] lots = [new("Amber", [2.0, 2.1, 2.2]), new("Birch", [2.1, 2.2, 2.3])];
        LotComparison Told(double uncertainty) => LotComparison.Of(Samples.Haze, lots, new LotComparisonOptions { ExpandedUncertainty = uncertainty });

        Assert.True(Told(0.0708).Pairs[0].BelowInstrument);
        Assert.False(Told(0.0706).Pairs[0].BelowInstrument);
        Assert.Null(LotComparison.Of(Samples.Haze, lots).Pairs[0].BelowInstrument);
        Assert.Contains(Told(0.2).Conclusion, sentence => sentence.Contains("instrument", StringComparison.Ordinal));
    }

    [Fact]
    public void Lot_WithWrongTimes_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => new Lot("Amber", [1, 2], [0]));
        Assert.Throws<ArgumentException>(() => new Lot("Amber", [1, 2], [0, -1]));
        Assert.Throws<ArgumentException>(() => new Lot("Amber", []));
        Assert.Throws<ArgumentException>(() => new Lot(" ", [1]));
    }

    [Fact]
    public void Ageing_WithoutDifferentTimes_IsStated()
    {
        Stated<AgeingComparison>? ageing = LotComparison.Of(Samples.Haze, [new("a", [1, 2], [5, 5]), new("b", [1, 2], [0, 5])]).Ageing;

        Assert.Equal(DegenerateReason.NoAgeing, ageing!.Reason);
        Assert.Contains("a", ageing.Explanation!, StringComparison.Ordinal);
    }

    [Fact]
    public void Ageing_OnStraightLines_HasNoResidual()
    {
        AgeingComparison ageing = LotComparison.Of(Samples.Haze, [new("a", [1, 2, 3], [0, 10, 20]), new("b", [1, 3, 5], [0, 10, 20])]).Ageing!.Value!;

        Assert.Equal([0.1, 0.2], ageing.Slopes.Select(slope => slope.SlopePerH), (a, b) => Math.Abs(a - b) < 1e-12);
        Assert.Equal(DegenerateReason.NoSpread, ageing.EqualSlopes.Reason);
    }

    // The difference and its interval are said in one direction, whichever lot comes first.
    [Fact]
    public void Conclusion_SaysDifferenceAndIntervalInOneDirection()
    {
        Lot low = new("Amber", [2.0, 2.2, 2.1, 2.3]);
        Lot high = new("Birch", [3.0, 3.1, 3.3, 3.2]);

        string one = LotComparison.Of(Samples.Haze, [low, high]).Conclusion[1];
        string other = LotComparison.Of(Samples.Haze, [high, low]).Conclusion[1];

        Assert.StartsWith("Amber is lower than Birch by 1.00 % (0.", one, StringComparison.Ordinal);
        Assert.Equal(one.Replace("Amber is lower than Birch", "Birch is higher than Amber", StringComparison.Ordinal), other);
    }
}
