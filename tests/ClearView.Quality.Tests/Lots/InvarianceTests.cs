using ClearView.Quality.Lots;
using ClearView.Quality.Tests.Reference;

using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;

namespace ClearView.Quality.Tests.Lots;

/// <summary>What a test statistic must not see: the unit, the zero, and the order of specimens and lots.</summary>
public sealed class InvarianceTests
{
    /// <summary>Two to five lots of two to nine specimens on a grid of 0.01, with centres that differ.</summary>
    public static Arbitrary<Lot[]> Lots() =>
        (from count in Gen.Choose(2, 5)
         from lots in (from size in Gen.Choose(2, 9)
                       from centre in Gen.Choose(0, 300)
                       from values in Gen.Choose(-100, 100).ArrayOf(size)
                       where values.Distinct().Count() > 1
                       select values.Select(value => (centre + value) / 100.0).ToArray()).ArrayOf(count)
         select lots.Select((values, index) => new Lot($"{index}", values)).ToArray()).ToArbitrary();

    [Property(Arbitrary = [typeof(InvarianceTests)], Replay = "20251,1", MaxTest = 25)]
    public void Tests_DoNotSeeScaleAndZero(Lot[] lots)
    {
        Lot[] moved = [.. lots.Select(lot => new Lot(lot.Name, [.. lot.Values.Select(value => (-3.7 * value) + 41)]))];

        Close.AssertAll(Statistics(lots), Statistics(moved), 1e-7, 1e-9);
    }

    [Property(Arbitrary = [typeof(InvarianceTests)], Replay = "20251,1", MaxTest = 25)]
    public void Tests_DoNotSeeTheOrder(Lot[] lots)
    {
        Lot[] turned = [.. lots.Select(lot => new Lot(lot.Name, [.. lot.Values.Reverse()])).Reverse()];

        Close.AssertAll(Statistics(lots), Statistics(turned), 1e-9, 1e-11);
    }

    private static double[] Statistics(Lot[] lots)
    {
        LotSummary[] summaries = [.. lots.Select(lot => new LotSummary(lot.Name, Quality.Descriptive.DescriptiveStatistics.Of(lot.Values), null))];
        AnovaTable anova = OneWay.Classical(lots);
        FTest welch = OneWay.Welch(summaries).Value!;
        KruskalWallisTest ranks = OneWay.KruskalWallis(lots).Value!;
        var pairwise = new Pairwise(summaries, anova, new LotComparisonOptions());
        LotPair pair = pairwise.Compare(summaries.Single(lot => lot.Name == "0"), summaries.Single(lot => lot.Name == "1"));
        return
        [
            anova.Test.Value!.F, anova.Test.Value.PValue, welch.F, welch.PValue, ranks.H, ranks.PValue,
            Math.Abs(pair.Welch.Value!.T), pair.Welch.Value.PValue, pair.GamesHowell.Value!.PValue, pair.TukeyKramer.Value!.PValue,
        ];
    }
}
