using System.Collections.Immutable;

using ClearView.Optics.Evaluations;

namespace ClearView.Optics.Tests.Evaluations;

/// <summary>Summaries of a bottle's wall, by hand.</summary>
public sealed class WallSummaryTests
{
    [Fact]
    public void Of_TwoRegions_SummarisesEachInOrderOfAppearance()
    {
        ImmutableArray<WallSummary> summaries = WallSummary.Of(
        [
            ("shoulder", 4, 310), ("body", 2.5, 260), ("shoulder", 7, 280), ("body", 2, null), ("shoulder", 1, 350),
        ]);

        Assert.Equal(
            [new WallSummary("shoulder", 1, 4, 7, 280, 7, 3), new WallSummary("body", 2, 2.25, 2.5, 260, 2.5, 2)],
            summaries);
    }

    [Fact]
    public void Of_NoThicknessRecorded_HasNoThinnestPlace()
    {
        WallSummary summary = Assert.Single(WallSummary.Of([("base", -0.5, null), ("base", 1.5, null)]));

        Assert.Equal(new WallSummary("base", -0.5, 0.5, 1.5, null, null, 2), summary);
    }

    // Two places equally thin: the first that was recorded stands.
    [Fact]
    public void Of_EquallyThinPlaces_TakesTheFirst() =>
        Assert.Equal(3, Assert.Single(WallSummary.Of([("body", 3, 250), ("body", 9, 250)])).AtThinnest);

    [Fact]
    public void Of_Nothing_IsEmpty() => Assert.Empty(WallSummary.Of([]));
}
