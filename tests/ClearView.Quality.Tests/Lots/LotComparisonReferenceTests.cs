using ClearView.Quality.Lots;
using ClearView.Quality.Tests.Reference;

namespace ClearView.Quality.Tests.Lots;

/// <summary>Every test of a comparison of lots against R on the same specimens.</summary>
public sealed class LotComparisonReferenceTests
{
    private const string Script = "reference_r.R";

    private static readonly Lot[] Given = Samples.Hazes;
    private static readonly double[] Values = Samples.Values(Given);
    private static readonly double[] Groups = Samples.Groups(Given);
    private static readonly LotComparison Comparison = LotComparison.Of(
        Samples.Haze, Given, new LotComparisonOptions { EquivalenceMargin = 0.5, ExpandedUncertainty = 0.1 });

    [Fact]
    public void Anova()
    {
        AnovaTable table = Comparison.Anova;

        Close.AssertAll(
            ReferenceR.Ask(Script, "aov", Values, Groups),
            [table.BetweenSquares, table.WithinSquares, table.Test.Value!.F, table.Test.Value.PValue],
            1e-11);
    }

    [Fact]
    public void WelchAnova()
    {
        FTest test = Comparison.WelchAnova.Value!;

        Close.AssertAll(
            ReferenceR.Ask(Script, "welch_anova", Values, Groups),
            [test.F, test.NumeratorDegreesOfFreedom, test.DenominatorDegreesOfFreedom, test.PValue],
            1e-11);
    }

    [Fact]
    public void KruskalWallis_WithTies()
    {
        KruskalWallisTest test = Comparison.KruskalWallis.Value!;

        Assert.True(test.TieCorrection < 1);
        Close.AssertAll(ReferenceR.Ask(Script, "kruskal", Values, Groups), [test.H, test.PValue], 1e-11);
    }

    // R's intervals rest on qtukey, which iterates to 1e-4; its p-values on ptukey, good to 1e-9 here.
    [Fact]
    public void TukeyKramer()
    {
        double[] reference = ReferenceR.Ask(Script, "tukey_hsd", Values, Groups);

        for (int i = 0; i < Comparison.Pairs.Length; i++)
        {
            LotPair pair = Comparison.Pairs[i];
            Close.Assert(reference[4 * i], -pair.Difference, 1e-12, 1e-15);
            Close.Assert(reference[(4 * i) + 1], -pair.TukeyKramer.Value!.Interval.Upper, 0, 1e-4);
            Close.Assert(reference[(4 * i) + 2], -pair.TukeyKramer.Value.Interval.Lower, 0, 1e-4);
            Close.Assert(reference[(4 * i) + 3], pair.TukeyKramer.Value.PValue, 1e-7, 1e-9);
        }
    }

    [Fact]
    public void GamesHowell()
    {
        double[] reference = ReferenceR.Ask(Script, "games_howell", Values, Groups);

        for (int i = 0; i < Comparison.Pairs.Length; i++)
        {
            RangeTest test = Comparison.Pairs[i].GamesHowell.Value!;
            Close.Assert(reference[3 * i], test.Q, 1e-11);
            Close.Assert(reference[(3 * i) + 1], test.DegreesOfFreedom, 1e-11);
            Close.Assert(reference[(3 * i) + 2], test.PValue, 1e-6, 1e-7);
        }
    }

    [Fact]
    public void WelchTAndEquivalence()
    {
        LotPair pair = Comparison.Pairs[0];
        double[] first = [.. Given[0].Values];
        double[] second = [.. Given[1].Values];
        TTest welch = pair.Welch.Value!;
        EquivalenceTest equivalence = pair.Equivalence!.Value!;

        Close.AssertAll(
            ReferenceR.Ask(Script, "welch_t", first, second),
            [welch.T, welch.DegreesOfFreedom, welch.PValue, welch.Interval.Lower, welch.Interval.Upper],
            1e-11);
        Close.AssertAll(
            ReferenceR.Ask(Script, "equivalence", first, second, [0.5]),
            [equivalence.PValue, equivalence.Interval.Lower, equivalence.Interval.Upper],
            1e-10);
    }

    [Fact]
    public void Ageing()
    {
        Lot[] lots = Samples.Aged;
        AgeingComparison ageing = LotComparison.Of(Samples.Haze, lots).Ageing!.Value!;
        double[][] vectors = [Samples.Values(lots), Samples.Times(lots), Samples.Groups(lots)];
        FTest test = ageing.EqualSlopes.Value!;

        Close.AssertAll(
            ReferenceR.Ask(Script, "ancova", vectors),
            [test.F, test.NumeratorDegreesOfFreedom, test.DenominatorDegreesOfFreedom, test.PValue, .. ageing.Slopes.Select(slope => slope.SlopePerH)],
            1e-9);
        Close.AssertAll(
            ReferenceR.Ask(Script, "slope", [.. lots[1].Values], [.. lots[1].AgeingTimesH!.Value]),
            [ageing.Slopes[1].SlopePerH, ageing.Slopes[1].StandardError!.Value, ageing.Slopes[1].Interval!.Value.Lower, ageing.Slopes[1].Interval!.Value.Upper],
            1e-10);
        Close.AssertAll(
            ReferenceR.Ask(Script, "slope_pairs", vectors), [.. ageing.Pairs.Select(pair => pair.Test.PValue)], 1e-6, 1e-8);
    }
}
