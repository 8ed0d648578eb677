using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Tests.Evaluations;

public sealed class EvaluatorTests
{
    private static readonly Method Method = new(
        HazeStandard.AstmD1003ProcedureB,
        LightAndObserver.CDegree2,
        LightAndObserver.D65Degree10,
        [YellownessKind.AstmE313, YellownessKind.AstmD1925]);

    [Fact]
    public void Evaluate_SpectralScans_GivesEveryMeasurandWithItsBasis()
    {
        WavelengthGrid grid = WavelengthGrid.Between(380, 780, 5);
        double[] total = [.. grid.WavelengthsNm.ToArray().Select(nm => 0.88 + (0.0001 * (nm - 560)))];
        double[] diffuse = [.. total.Select(value => value * 0.02)];
        var scans = new TransmittanceScans(TransmittanceSpectrum.FromFractions(grid, total), TransmittanceSpectrum.FromFractions(grid, diffuse));

        Evaluation evaluation = Evaluator.Evaluate(scans, Method);

        Assert.Equal(2, evaluation.Haze!.Value.Percent, 1e-9);
        // A yellowish film has a dominant wavelength, hence no complementary one; nothing was asked for to take differences
        // against; 380-780 nm does not reach the ultraviolet; and a clear film is past every edge at its first wavelength.
        Measurand[] absent =
        [
            Measurands.ComplementaryWavelength,
            .. Measurand.All.Where(measurand => measurand.Id.StartsWith("delta_", StringComparison.Ordinal)),
            Measurands.ChangeInYellowness,
            Measurands.YellownessIndexIso17223,
            Measurands.ChangeInYellownessIso17223,
            Measurands.MetamerismIndex,
            .. Measurands.OfNamedBands.Where(measurand => measurand.Id.Contains("_uv_", StringComparison.Ordinal)),
            .. Measurands.Edges,
            Measurands.LightBarrierMaximum,
        ];
        Assert.Equal(Measurand.All.Except(absent), evaluation.Values.Select(value => value.Measurand));
        Assert.All(evaluation.Values, value => Assert.Equal(5, value.Basis.IntervalNm));
        Assert.Equal(LightAndObserver.CDegree2, evaluation.Values.Single(value => value.Measurand == Measurands.Haze).Basis.LightAndObserver);
        Assert.Equal(LightAndObserver.D65Degree10, evaluation.Values.Single(value => value.Measurand == Measurands.CielabB).Basis.LightAndObserver);
        Assert.Equal(LightAndObserver.CDegree2, evaluation.Values.Single(value => value.Measurand == Measurands.YellownessIndexD1925).Basis.LightAndObserver);
        Assert.Contains("E2022", evaluation.Weighting, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_HazemeterReadings_GivesLuminousValuesOnly()
    {
        Evaluation evaluation = Evaluator.Evaluate(HazemeterReadings.Create(100, 92, 0.5, 2.3), Method);

        Assert.Equal(
            [Measurands.LuminousTransmittance, Measurands.DiffuseLuminousTransmittance, Measurands.RegularLuminousTransmittance, Measurands.Haze],
            evaluation.Values.Select(value => value.Measurand));
        Assert.Equal(90.16, evaluation.RegularLuminousTransmittance!.Value.Percent, 1e-12);
        Assert.Equal("instrument", evaluation.Weighting);
    }

    // ASTM E313 prints coefficients for C and D65 only: no index without them.
    [Fact]
    public void Method_E313UnderAPairWithoutCoefficients_IsRefused()
    {
        ArgumentException error = Assert.Throws<ArgumentException>(() => new Method(
            HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.ADegree2, [YellownessKind.AstmE313]));

        Assert.Contains("A/2°", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Method_SameChoices_AreEqual()
    {
        var same = new Method(
            HazeStandard.AstmD1003ProcedureB,
            LightAndObserver.CDegree2,
            new LightAndObserver(Illuminant.D65, Observer.Cie1964Degree10),
            [YellownessKind.AstmD1925, YellownessKind.AstmE313]);
        var other = new Method(HazeStandard.AstmD1003ProcedureA, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, []);

        Assert.Equal(Method, same);
        Assert.Equal(Method.GetHashCode(), same.GetHashCode());
        Assert.True(Method != other);
    }

    [Fact]
    public void Measurands_HaveDistinctIdentifiersAndAreFoundByThem()
    {
        Assert.Distinct(Measurand.All.Select(measurand => measurand.Id));
        Assert.All(Measurand.All, measurand =>
        {
            Assert.True(Measurand.TryFind(measurand.Id, out Measurand? found));
            Assert.Same(measurand, found);
            Assert.Matches("^[a-z][a-z0-9_]*$", measurand.Id);
        });
        Assert.False(Measurand.TryFind("no_such_measurand", out _));
        Assert.False(Measurand.TryFind(null, out _));
    }
}
