using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Tests.Evaluations;

/// <summary>Means over specimens, with the uncertainty of the mean.</summary>
public sealed class SpecimenMeanTests
{
    // JCGM 100, 4.4.3 and table 1: twenty observations of a temperature, °C, from memory.
    private static readonly double[] Temperatures =
    [
        96.90, 98.18, 98.25, 98.61, 99.03, 99.49, 99.56, 99.74, 99.89, 100.07,
        100.33, 100.42, 100.68, 100.95, 101.11, 101.20, 101.57, 101.84, 102.36, 102.72,
    ];

    private static readonly Method Method = new(
        HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, [YellownessKind.AstmE313]);

    // A neutral specimen's transmittance in percent stands for the temperature: the printed figures are 100.145, 1.489 and 0.333.
    [Fact]
    public void Of_TwentyObservations_GivesTheGuidesMeanDeviationAndStandardUncertainty()
    {
        ImmutableArray<Evaluation> specimens = [.. Temperatures.Select(percent => Grey(percent / 100))];

        SpecimenMean mean = SpecimenMean.Of(specimens, new UncertaintyInputs(), 0.95)
            .Single(m => m.Measurand == Measurands.LuminousTransmittance);

        Assert.Equal(20, mean.Count);
        Assert.Equal(100.145, mean.Mean, 0.0005);
        Assert.Equal(1.489, mean.StandardDeviation, 0.0005);
        Assert.Equal(0.333, mean.StandardError, 0.0005);
        Assert.Equal(0.333, mean.Uncertainty!.StandardUncertainty, 0.0005);
        Assert.Equal(19, mean.Uncertainty.EffectiveDegreesOfFreedom, 1e-9);

        // t for 19 degrees of freedom and 95 %: 2.09 (JCGM 100, table G.2).
        Assert.Equal(2.09, mean.Uncertainty.CoverageFactor, 0.005);
    }

    // By hand: values 80, 82 and 87 % have the mean 83 and s = √((9 + 1 + 16)/2) = 3.6056.
    [Fact]
    public void Of_ThreeSpecimens_ByHand()
    {
        SpecimenMean mean = Of(Measurands.LuminousTransmittance, new UncertaintyInputs(), Grey(0.80), Grey(0.82), Grey(0.87));

        Assert.Equal(83, mean.Mean, 1e-9);
        Assert.Equal(Math.Sqrt(13), mean.StandardDeviation, 1e-9);
        Assert.Equal(Math.Sqrt(13.0 / 3), mean.Uncertainty!.StandardUncertainty, 1e-9);
    }

    // By hand: a 100 % line drift of 0.5 % of the reading moves all three together, the mean of 83 by 0.415; s/√3 = 2.0817.
    // u = √(13/3 + 0.415²); νeff = u⁴ / ((13/3)²/2), the drift being known.
    [Fact]
    public void Of_SharedDrift_DoesNotAverageOut()
    {
        var inputs = new UncertaintyInputs { HundredLineDriftPercent = 0.5 };

        MeasurandUncertainty result =
            Of(Measurands.LuminousTransmittance, inputs, Grey(0.80), Grey(0.82), Grey(0.87)).Uncertainty!;

        double variance = (13.0 / 3) + (0.415 * 0.415);
        Assert.Equal(Math.Sqrt(variance), result.StandardUncertainty, 1e-9);
        Assert.Equal(variance * variance / (13.0 / 3 * 13 / 3 / 2), result.EffectiveDegreesOfFreedom, 1e-9);
        Assert.Equal(["Specimen-to-specimen spread", "100 % line drift"], result.Budget.Select(c => c.Source.Name));
        Assert.Equal(0.415, result.Budget[1].StandardUncertainty, 1e-9);
        Assert.Equal(1, result.Budget.Sum(c => c.Share), 1e-12);
    }

    // By hand: linearity moves T by 4T(1 − T)·d, up below and above mid-scale alike, but a zero offset (T − 1)·d; haze of grey
    // specimens with D = h·T moves by the offset with a sign that the mean keeps: dH = 100(dD − h·dT)/T = −100·d(1 − h)/T.
    [Fact]
    public void Of_SharedOffset_AddsUpWithItsSign()
    {
        var inputs = new UncertaintyInputs { ZeroOffsetPercent = 0.1 };

        MeasurandUncertainty result = Of(Measurands.Haze, inputs, Grey(0.8, 0.1), Grey(0.5, 0.1)).Uncertainty!;

        Assert.Equal(100 * 0.001 * 0.9 * ((1 / 0.8) + (1 / 0.5)) / 2, result.Budget[1].StandardUncertainty, 1e-9);
    }

    // The spread already holds it; to count it again would give the instrument's noise twice (JCGM 100, 4.3.10).
    [Fact]
    public void Of_Repeatability_IsNotCountedTwice()
    {
        var inputs = new UncertaintyInputs { HundredLineDriftPercent = 0.5 };
        Evaluation[] specimens = [Grey(0.80), Grey(0.82), Grey(0.87)];

        MeasurandUncertainty without = Of(Measurands.CielabL, inputs, specimens).Uncertainty!;
        MeasurandUncertainty with = Of(
            Measurands.CielabL,
            inputs with { RepeatabilityPercent = 3, Specimens = [.. specimens.Select(s => s.Scans!)] },
            specimens).Uncertainty!;

        Assert.Equal(without.StandardUncertainty, with.StandardUncertainty);
        Assert.Equal(without.Budget.Length, with.Budget.Length);
    }

    [Fact]
    public void Of_OneSpecimen_HasAMeanButNeitherDeviationNorUncertainty()
    {
        SpecimenMean mean = Of(Measurands.LuminousTransmittance, new UncertaintyInputs { ZeroOffsetPercent = 1 }, Grey(0.8));

        Assert.Equal(80, mean.Mean, 1e-9);
        Assert.True(double.IsNaN(mean.StandardDeviation));
        Assert.True(double.IsNaN(mean.StandardError));
        Assert.Null(mean.Uncertainty);
    }

    // The drift's part of the mean is 0.5 % of it whatever the grids.
    [Fact]
    public void Of_SpecimensOnDifferentGrids_TakesEachWithItsOwnGradient()
    {
        var inputs = new UncertaintyInputs { HundredLineDriftPercent = 0.5 };

        SpecimenMean mean = Of(Measurands.LuminousTransmittance, inputs, Grey(0.8), Grey(0.9, intervalNm: 10));

        Assert.Equal(85, mean.Mean, 1e-9);
        Assert.Equal(0.425, mean.Uncertainty!.Budget[1].StandardUncertainty, 1e-9);
    }

    [Fact]
    public void Of_ExactlyNeutralColour_HasNoDerivativeOfChroma_AndHueHasNoMean()
    {
        ImmutableArray<SpecimenMean> means = SpecimenMean.Of(
            [Grey(0.8), Yellowish(0.8)], new UncertaintyInputs { HundredLineDriftPercent = 0.5 }, 0.95);

        Assert.DoesNotContain(means, m => m.Measurand == Measurands.CielabHue);
        Assert.All(means, m => Assert.True(m.Uncertainty is null || double.IsFinite(m.Uncertainty.StandardUncertainty)));
        Assert.NotNull(means.Single(m => m.Measurand == Measurands.CielabB).Uncertainty);
    }

    [Fact]
    public void Of_HazemeterReadings_HasTheSpreadOnly_AndNothingWhereErrorsOfSpectraAreGiven()
    {
        Evaluation[] specimens = [Read(2), Read(4)];

        SpecimenMean spread = Of(Measurands.Haze, new UncertaintyInputs(), specimens);
        SpecimenMean refused = Of(Measurands.Haze, new UncertaintyInputs { ZeroOffsetPercent = 0.1 }, specimens);

        Assert.Equal(spread.StandardError, spread.Uncertainty!.StandardUncertainty, 1e-12);
        Assert.Equal(1, spread.Uncertainty.EffectiveDegreesOfFreedom, 1e-12);
        Assert.Null(refused.Uncertainty);
        Assert.Equal(spread.Mean, refused.Mean);
    }

    // A band of one's own belongs together over specimens, and is one row even where it is also a named one.
    [Fact]
    public void Of_BandsOfOnesOwn_AreAveragedToo()
    {
        var own = Band.Between(400, 500);
        var method = new Method(HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, [])
        {
            Bands = [own, Band.Visible],
        };
        ImmutableArray<SpecimenMean> means = SpecimenMean.Of(
            [Evaluator.Evaluate(Grey(0.8).Scans!, method), Evaluator.Evaluate(Grey(0.9).Scans!, method)], new UncertaintyInputs(), 0.95);

        Assert.Equal(85, means.Single(mean => mean.Measurand == Measurands.OfBand(own)[0]).Mean, 1e-9);
        Assert.Equal(85, means.Single(mean => mean.Measurand == Measurands.OfBand(Band.Visible)[0]).Mean, 1e-9);
    }

    [Fact]
    public void Of_NoSpecimenOrTwoMethods_IsRefused()
    {
        var other = new Method(HazeStandard.AstmD1003ProcedureB, LightAndObserver.CDegree2, LightAndObserver.D65Degree10, []);

        Assert.Throws<ArgumentException>(() => SpecimenMean.Of([]));
        Assert.Throws<ArgumentException>(() => SpecimenMean.Of([Grey(0.8), Evaluator.Evaluate(Grey(0.8).Scans!, other)]));
    }

    private static SpecimenMean Of(Measurand measurand, UncertaintyInputs inputs, params Evaluation[] specimens) =>
        SpecimenMean.Of([.. specimens], inputs, 0.95).Single(mean => mean.Measurand == measurand);

    private static Evaluation Grey(double fraction, double haze = 0.02, double intervalNm = 5)
    {
        WavelengthGrid grid = WavelengthGrid.Between(380, 780, intervalNm);
        double[] total = [.. Enumerable.Repeat(fraction, grid.Count)];
        double[] diffuse = [.. Enumerable.Repeat(fraction * haze, grid.Count)];
        return Evaluator.Evaluate(
            new TransmittanceScans(TransmittanceSpectrum.FromFractions(grid, total), TransmittanceSpectrum.FromFractions(grid, diffuse)), Method);
    }

    private static Evaluation Yellowish(double fraction)
    {
        WavelengthGrid grid = WavelengthGrid.Between(380, 780, 5);
        double[] total = [.. Enumerable.Range(0, grid.Count).Select(i => fraction - (0.1 * Math.Exp(-i / 12.0)))];
        double[] diffuse = [.. total.Select(value => 0.02 * value)];
        return Evaluator.Evaluate(
            new TransmittanceScans(TransmittanceSpectrum.FromFractions(grid, total), TransmittanceSpectrum.FromFractions(grid, diffuse)), Method);
    }

    private static Evaluation Read(double scattered) =>
        Evaluator.Evaluate(HazemeterReadings.Create(100, 90, 0.5, scattered), Method);
}
