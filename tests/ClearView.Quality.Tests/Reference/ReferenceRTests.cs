namespace ClearView.Quality.Tests.Reference;

/// <summary>The way to R and back.</summary>
public sealed class ReferenceRTests
{
    [Fact]
    public void Ask_Quantiles_ComeBackInOrder() =>
        Assert.Equal([1.75, 2.5, 3.25], ReferenceR.Ask("reference_r.R", "quantile", [1, 2, 3, 4], [0.25, 0.5, 0.75]));
}
