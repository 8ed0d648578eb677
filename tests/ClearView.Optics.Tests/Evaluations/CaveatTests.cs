using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Tests.Evaluations;

/// <summary>Each caveat is there on one side of its limit and absent on the other.</summary>
public sealed class CaveatTests
{
    private static readonly Method D1003 = new(
        HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, []);

    private static readonly Method Iso = new(
        HazeStandard.Iso14782WithIso13468Part2, LightAndObserver.D65Degree2, LightAndObserver.D65Degree10, []);

    // ASTM D1003: above 30 % haze is outside the standard. ISO 14782: above 40 %.
    [Theory]
    [InlineData(30.001, 30, true)]
    [InlineData(29.999, 30, false)]
    [InlineData(40.001, 40, true)]
    [InlineData(39.999, 40, false)]
    public void HazeAboveStandardRange(double hazePercent, double limit, bool expected) =>
        AssertCaveat(CaveatCode.HazeAboveStandardRange, expected, Flat(0.9, hazePercent / 100), limit == 30 ? D1003 : Iso);

    [Theory]
    [InlineData(30.001, true)]
    [InlineData(29.999, false)]
    public void ColourOfDiffusingSpecimen(double hazePercent, bool expected) =>
        AssertCaveat(CaveatCode.ColourOfDiffusingSpecimen, expected, Flat(0.9, hazePercent / 100), D1003);

    [Theory]
    [InlineData(1.0000001, true)]
    [InlineData(1, false)]
    [InlineData(0, false)]
    [InlineData(-0.0000001, true)]
    public void TransmittanceOutsidePhysicalRange(double oneFraction, bool expected) =>
        AssertCaveat(CaveatCode.TransmittanceOutsidePhysicalRange, expected, WithOne(oneFraction, 0), D1003);

    [Theory]
    [InlineData(0.5000001, true)]
    [InlineData(0.5, false)]
    public void DiffuseAboveTotal(double diffuse, bool expected) =>
        AssertCaveat(CaveatCode.DiffuseAboveTotal, expected, WithOne(0.5, diffuse), D1003);

    [Theory]
    [InlineData(360, 780, false)]
    [InlineData(370, 780, true)]
    [InlineData(360, 770, true)]
    public void RangeExtended(double firstNm, double lastNm, bool expected) =>
        AssertCaveat(CaveatCode.RangeExtended, expected, Flat(0.9, 0.01, WavelengthGrid.Between(firstNm, lastNm, 10)), D1003);

    [Fact]
    public void RangeExtended_SaysWhere()
    {
        Evaluation evaluation = Evaluator.Evaluate(Flat(0.9, 0.01, WavelengthGrid.Between(380, 780, 10)), D1003);

        Assert.Equal(new SpectralRange(360, 380), Assert.Single(evaluation.Caveats, one => one.Code == CaveatCode.RangeExtended).Range);
    }

    [Theory]
    [InlineData(20, false)]
    [InlineData(21, true)]
    public void IntervalAboveStandardRange(double intervalNm, bool expected) =>
        AssertCaveat(CaveatCode.IntervalAboveStandardRange, expected, Flat(0.9, 0.01, WavelengthGrid.Between(360, 780, intervalNm)), D1003);

    [Fact]
    public void PairNotOfStandard()
    {
        AssertCaveat(CaveatCode.PairNotOfStandard, false, Flat(0.9, 0.01), D1003);
        AssertCaveat(CaveatCode.PairNotOfStandard, true, Flat(0.9, 0.01), WithLuminous(HazeStandard.AstmD1003ProcedureB, LightAndObserver.D65Degree2));
        AssertCaveat(CaveatCode.PairNotOfStandard, true, Flat(0.9, 0.01), WithLuminous(HazeStandard.Iso14782WithIso13468Part1, LightAndObserver.CDegree2));
        AssertCaveat(CaveatCode.PairNotOfStandard, false, Flat(0.9, 0.01), WithLuminous(HazeStandard.AstmD1003ProcedureB, LightAndObserver.ADegree2));
    }

    [Fact]
    public void ProcedureMismatch()
    {
        AssertCaveat(CaveatCode.ProcedureMismatch, true, Flat(0.9, 0.01), WithLuminous(HazeStandard.AstmD1003ProcedureA, LightAndObserver.CDegree2));
        AssertCaveat(CaveatCode.ProcedureMismatch, false, Flat(0.9, 0.01), D1003);
        Assert.Contains(
            Evaluator.Evaluate(HazemeterReadings.Create(100, 92, 0.5, 2.3), D1003).Caveats, one => one.Code == CaveatCode.ProcedureMismatch);
    }

    [Fact]
    public void DiffuseNotMeasured()
    {
        var scans = new TransmittanceScans(Flat(0.9, 0.01).Total, null);

        AssertCaveat(CaveatCode.DiffuseNotMeasured, true, scans, D1003);
        Assert.Null(Evaluator.Evaluate(scans, D1003).Haze);
        AssertCaveat(CaveatCode.DiffuseNotMeasured, false, Flat(0.9, 0.01), D1003);
    }

    [Fact]
    public void HazeUndefined()
    {
        AssertCaveat(CaveatCode.HazeUndefined, true, Flat(0, 0.01), D1003);
        AssertCaveat(CaveatCode.HazeUndefined, false, Flat(0.0001, 0.01), D1003);
    }

    [Fact]
    public void Achromatic()
    {
        AssertCaveat(CaveatCode.Achromatic, true, Flat(0.9, 0.01), D1003);
        AssertCaveat(CaveatCode.Achromatic, false, WithOne(0.5, 0), D1003);
    }

    [Fact]
    public void WithdrawnStandard()
    {
        var asked = new Method(HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, [YellownessKind.AstmD1925]);

        AssertCaveat(CaveatCode.WithdrawnStandard, true, Flat(0.9, 0.01), asked);
        AssertCaveat(CaveatCode.WithdrawnStandard, false, Flat(0.9, 0.01), D1003);
    }

    private static void AssertCaveat(CaveatCode code, bool expected, TransmittanceScans scans, Method method)
    {
        Evaluation evaluation = Evaluator.Evaluate(scans, method);

        Assert.Equal(expected, evaluation.Caveats.Any(one => one.Code == code));
        Assert.All(evaluation.Caveats, one => Assert.NotEmpty(one.Message));
    }

    private static Method WithLuminous(HazeStandard standard, LightAndObserver luminous) => new(standard, luminous, LightAndObserver.D65Degree10, []);

    private static TransmittanceScans Flat(double total, double haze, WavelengthGrid? grid = null)
    {
        WavelengthGrid wavelengths = grid ?? WavelengthGrid.Between(360, 780, 10);
        return new TransmittanceScans(
            TransmittanceSpectrum.FromFractions(wavelengths, [.. Enumerable.Repeat(total, wavelengths.Count)]),
            TransmittanceSpectrum.FromFractions(wavelengths, [.. Enumerable.Repeat(total * haze, wavelengths.Count)]));
    }

    // A flat film of 90 %, haze 1 %, with one wavelength that reads otherwise.
    private static TransmittanceScans WithOne(double total, double diffuse)
    {
        WavelengthGrid grid = WavelengthGrid.Between(360, 780, 10);
        double[] totals = [.. Enumerable.Repeat(0.9, grid.Count)];
        double[] diffuses = [.. Enumerable.Repeat(0.009, grid.Count)];
        int at = grid.IndexAtOrBelow(560);
        (totals[at], diffuses[at]) = (total, diffuse);
        return new TransmittanceScans(TransmittanceSpectrum.FromFractions(grid, totals), TransmittanceSpectrum.FromFractions(grid, diffuses));
    }
}
