using ClearView.Optics.Tests.Documentation;
using ClearView.Quality.Lots;
using ClearView.Quality.Sampling;
using ClearView.Quality.Tests.Lots;

namespace ClearView.Quality.Tests.Documentation;

/// <summary>Computes the worked examples of lots.md and sampling.md, which were derived by hand.</summary>
public sealed class LotsExampleTests
{
    private const string Fence = "quality-example";

    [Fact]
    public void ThreeLots()
    {
        var page = WorkedExample.Read("lots.md", "three-lots", Fence);

        LotComparison comparison = LotComparison.Of(Samples.Haze, [new("Amber", [2, 3, 4]), new("Birch", [4, 5, 6]), new("Cedar", [3, 4, 5])]);

        page.Shows("SSB", comparison.Anova.BetweenSquares);
        page.Shows("SSW", comparison.Anova.WithinSquares);
        page.Shows("F", comparison.Anova.Test.Value!.F);
        page.Shows("p", comparison.Anova.Test.Value.PValue);
        page.Shows("eta_squared", comparison.Anova.EtaSquared!.Value);
        page.Shows("omega_squared", comparison.Anova.OmegaSquared!.Value);
        page.Shows("between_lots", comparison.VarianceComponents.Value!.BetweenLots);
        LotPair pair = comparison.Pairs[0];
        page.Shows("difference", pair.Difference);
        page.Shows("t", pair.Welch.Value!.T);
        page.Shows("nu", pair.Welch.Value.DegreesOfFreedom);
        page.Shows("q", pair.TukeyKramer.Value!.Q);
        page.Shows("g", pair.Effect.Value!.HedgesG);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Ageing()
    {
        var page = WorkedExample.Read("lots.md", "ageing", Fence);

        AgeingComparison ageing = LotComparison.Of(
            Samples.Haze, [new("Amber", [1, 2, 4], [0, 100, 200]), new("Birch", [1, 1, 2], [0, 100, 200])]).Ageing!.Value!;

        page.Shows("slope_Amber", ageing.Slopes[0].SlopePerH);
        page.Shows("slope_Birch", ageing.Slopes[1].SlopePerH);
        page.Shows("F", ageing.EqualSlopes.Value!.F);
        page.Shows("p", ageing.EqualSlopes.Value.PValue);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Mean()
    {
        var page = WorkedExample.Read("sampling.md", "mean", Fence);

        page.Shows("known", SampleSize.ForMeanKnownSpread(page.Given("sigma"), page.Given("margin")));
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Plan()
    {
        var page = WorkedExample.Read("sampling.md", "plan", Fence);

        var plan = VariablesPlan.For(page.Given("p1"), page.Given("p2"), page.Given("alpha"), page.Given("beta"));

        page.Shows("n", plan.Specimens);
        page.Shows("k", plan.AcceptabilityConstant);
        page.HasNoOtherFigures();
    }
}
