using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Tests.Documentation;

/// <summary>Computes the worked examples of docs/methods/uncertainty.md, which were derived by hand.</summary>
public sealed class UncertaintyExampleTests
{
    private const double Coverage = 0.95;

    private static readonly WavelengthGrid Grid = WavelengthGrid.Between(360, 780, 10);

    private static readonly Method Method =
        new(HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.CDegree2, []);

    [Fact]
    public void BandMean()
    {
        WorkedExample page = WorkedExample.Read("uncertainty.md", "band-mean-uncertainty");
        var scans = new TransmittanceScans(Flat(page.Given("T")), null);
        var inputs = new UncertaintyInputs
        {
            RepeatabilityPercent = page.Given("repeatability"),
            RepeatabilityDegreesOfFreedom = page.Given("repeatability_dof"),
            HundredLineDriftPercent = page.Given("drift"),
        };
        var method = new Method(Method.HazeStandard, Method.Luminous, Method.Colour, []) { Bands = [Band.Between(500, 540)] };

        MeasurandUncertainty result = UncertaintyReport.Of(Evaluator.Evaluate(scans, method), inputs, Coverage, null)
            .Results.Single(one => one.Measurand.Id == "band_mean_transmittance_500_540");

        Contribution noise = result.Budget.Single(part => part.Source.Name == "Repeatability");
        Contribution drift = result.Budget.Single(part => part.Source.Name == "100 % line drift");
        page.Shows("u_noise", noise.StandardUncertainty);
        page.Shows("u_drift", drift.StandardUncertainty);
        page.Shows("u", result.StandardUncertainty);
        page.Shows("noise_share", 100 * noise.Share);
        page.Shows("nu", Math.Floor(result.EffectiveDegreesOfFreedom));
        page.Shows("k", result.CoverageFactor);
        page.Shows("U", result.ExpandedUncertainty);
        page.Shows("decimals", UncertaintyRounding.Decimals(result.ExpandedUncertainty));
        page.HasNoOtherFigures();
        Assert.Equal("80.00 ± 0.51", UncertaintyRounding.Format(result.Value, result.ExpandedUncertainty));
    }

    [Fact]
    public void HazeCorrelation()
    {
        WorkedExample page = WorkedExample.Read("uncertainty.md", "haze-correlation");
        var scans = new TransmittanceScans(Flat(page.Given("Tt")), Flat(page.Given("Td")));
        var inputs = new UncertaintyInputs { ZeroOffsetPercent = page.Given("offset"), HundredLineDriftPercent = page.Given("drift") };

        MeasurandUncertainty result = UncertaintyReport.Of(Evaluator.Evaluate(scans, Method), inputs, Coverage, null).Linear(Measurands.Haze)!;

        page.Shows("H", result.Value);
        page.Shows("u_offset", result.Budget.Single(part => part.Source.Name == "0 % offset").StandardUncertainty);
        page.Shows("u_drift", result.Budget.Where(part => part.Source.Name == "100 % line drift").Sum(part => part.StandardUncertainty));
        page.Shows("u", result.StandardUncertainty);
        page.HasNoOtherFigures();
    }

    [Fact]
    public void SpecimenMean_TypeAAndB()
    {
        WorkedExample page = WorkedExample.Read("uncertainty.md", "specimen-mean");
        double total = page.Given("Tt");
        TransmittanceScans Of(double haze) => new(Flat(total), Flat(total * haze / 100));
        double[] hazes = [page.Given("H_1"), page.Given("H_2"), page.Given("H_3")];
        ImmutableArray<TransmittanceScans> specimens = [.. hazes.Select(Of)];
        var inputs = new UncertaintyInputs { ZeroOffsetPercent = page.Given("offset"), Specimens = specimens };

        SpecimenMean mean = SpecimenMean.Of([.. specimens.Select(scans => Evaluator.Evaluate(scans, Method))])
            .Single(one => one.Measurand == Measurands.Haze);
        MeasurandUncertainty result = UncertaintyReport.Of(Evaluator.Evaluate(Of(hazes.Average()), Method), inputs, Coverage, null)
            .Linear(Measurands.Haze)!;

        page.Shows("mean", mean.Mean);
        page.Shows("s", mean.StandardDeviation);
        page.Shows("u_A", result.Budget.Single(part => part.Source.Name == "Specimen-to-specimen spread").StandardUncertainty);
        page.Shows("u_B", result.Budget.Single(part => part.Source.Name == "0 % offset").StandardUncertainty);
        page.Shows("u", result.StandardUncertainty);
        page.Shows("nu", result.EffectiveDegreesOfFreedom);
        page.Shows("k", result.CoverageFactor);
        page.Shows("U", result.ExpandedUncertainty);
        page.Shows("decimals", UncertaintyRounding.Decimals(result.ExpandedUncertainty));
        page.HasNoOtherFigures();
    }

    private static TransmittanceSpectrum Flat(double percent) =>
        TransmittanceSpectrum.FromPercents(Grid, [.. Enumerable.Repeat(percent, Grid.Count)]);
}
