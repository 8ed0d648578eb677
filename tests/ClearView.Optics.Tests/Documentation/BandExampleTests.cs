using System.Collections.Immutable;

using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission.Bands;

namespace ClearView.Optics.Tests.Documentation;

/// <summary>Computes the worked examples of docs/methods/bands.md, which were derived by hand.</summary>
public sealed class BandExampleTests
{
    [Fact]
    public void Bands()
    {
        WorkedExample page = WorkedExample.Read("bands.md", "bands");
        var grid = WavelengthGrid.Between(290, 450, 20);
        var spectrum = TransmittanceSpectrum.FromPercents(
            grid, [.. grid.WavelengthsNm.ToArray().Select(nm => page.Given(FormattableString.Invariant($"T_{nm}")))]);

        var uvA = BandTransmittance.Of(spectrum, Band.UvA);
        page.Shows("uv_a_mean", 100 * uvA.MeanFraction);
        page.Shows("uv_a_maximum", 100 * uvA.MaximumFraction);
        page.Shows("edge_1", EdgeWavelength.Find(spectrum, 0.01).WavelengthNm!.Value);
        page.Shows("edge_10", EdgeWavelength.Find(spectrum, 0.10).WavelengthNm!.Value);
        page.Shows("edge_50", EdgeWavelength.Find(spectrum, 0.50).WavelengthNm!.Value);

        var barrier = LightBarrierScreen.Of(spectrum, page.Given("limit") / 100);
        page.Shows("barrier_maximum", 100 * barrier.MaximumFraction);
        page.Shows("barrier_at", barrier.MaximumAtNm);
        Assert.False(barrier.IsWithinLimit);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void Wall()
    {
        WorkedExample page = WorkedExample.Read("bands.md", "wall");

        ImmutableArray<WallSummary> summaries = WallSummary.Of(
            new[] { 1, 2, 3 }.Select(i => ("shoulder", page.Given($"T_{i}"), (double?)page.Given($"thickness_{i}"))));

        WallSummary shoulder = Assert.Single(summaries);
        page.Shows("minimum", shoulder.Minimum);
        page.Shows("mean", shoulder.Mean);
        page.Shows("maximum", shoulder.Maximum);
        page.Shows("thinnest", shoulder.ThinnestUm!.Value);
        page.Shows("at_thinnest", shoulder.AtThinnest!.Value);
        page.HasNoOtherFigures();
    }
}
