using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Tests.Uncertainty;

public class PropagationTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Between(380, 780, 5);

    private static readonly Method Method = new(
        HazeStandard.AstmD1003ProcedureB,
        LightAndObserver.CDegree2,
        LightAndObserver.D65Degree10,
        [YellownessKind.AstmE313, YellownessKind.AstmD1925]);

    private static readonly ReadingEvaluator Evaluator = new(Grid, Method);

    private static readonly UncertaintyInputs Inputs = new()
    {
        RepeatabilityPercent = 0.05,
        RepeatabilityDegreesOfFreedom = 9,
        ZeroOffsetPercent = 0.02,
        HundredLineDriftPercent = 0.05,
        LinearityPercent = 0.05,
        WavelengthShiftNm = 0.1,
        StrayLightPercent = 0.01,
        BandpassNm = 5,
    };

    // The differentiable form and the evaluation are two ways to the same number.
    [Fact]
    public void Propagate_EveryMeasurand_HasTheValueOfTheEvaluation()
    {
        TransmittanceScans scans = Specimen(1);
        Evaluation evaluation = Optics.Evaluations.Evaluator.Evaluate(scans, Method);

        foreach (MeasurandUncertainty result in Propagate(scans, Inputs.ToSources(scans)))
        {
            double expected = evaluation.Values.Single(value => value.Measurand == result.Measurand).Value;
            Assert.Equal(expected, result.Value, 1e-9 * Math.Max(1, Math.Abs(expected)));
        }
    }

    [Fact]
    public void Propagate_EveryMeasurandWithAValue_GetsAnUncertainty() =>
        Assert.Equal(
            Optics.Evaluations.Evaluator.Evaluate(Specimen(1), Method).Values.Select(value => value.Measurand),
            Propagate(Specimen(1), Inputs.ToSources(Specimen(1))).Select(result => result.Measurand));

    // Every short cut (moves of the sums, kept covariances, gradients only where they are not zero) against the whole matrix.
    [Fact]
    public void Evaluate_EveryMeasurand_HasTheUncertaintyOfTheFullCovarianceMatrix()
    {
        TransmittanceScans scans = InventedFilm.Scans;
        TransmittanceScans[] further = [.. new[] { 0.99, 1, 1.02 }.Select(factor => Times(scans, factor))];
        UncertaintyInputs inputs = Inputs with { Specimens = [.. further] };
        var evaluator = new ReadingEvaluator(scans.Grid, Method);
        var prepared = new ReadingUncertaintyEvaluator(scans.Grid, Method, inputs, 0.95);
        _ = prepared.Evaluate(Optics.Evaluations.Evaluator.Evaluate(further[0], Method));
        Evaluation evaluation = Optics.Evaluations.Evaluator.Evaluate(scans, Method);

        UncertaintyReport report = prepared.Evaluate(evaluation);

        Assert.Equal(evaluation.Values.Select(value => value.Measurand), report.Results.Select(result => result.Measurand));
        Assert.All(report.Results, result =>
        {
            double expected = PlainPropagation.StandardUncertainty(evaluator, scans, inputs.ToSources(scans), result.Measurand);

            // a* is 500 times, u* 13 L* times a small difference: there both ways round off in the twelfth digit.
            bool isSmallDifference = result.Measurand == Measurands.CielabA || result.Measurand == Measurands.CieluvU;
            Assert.Equal(1, result.StandardUncertainty / expected, isSmallDifference ? 1e-11 : 1e-12);
        });
    }

    // What was prepared for one grid and method is not used for another.
    [Fact]
    public void Evaluate_AnotherGridOrMethod_IsRefused()
    {
        var prepared = new ReadingUncertaintyEvaluator(Grid, Method, Inputs, 0.95);

        Assert.Throws<ArgumentException>(() => prepared.Evaluate(Optics.Evaluations.Evaluator.Evaluate(InventedFilm.Scans, Method)));
        Assert.Throws<ArgumentException>(() => prepared.Evaluate(Optics.Evaluations.Evaluator.Evaluate(
            Specimen(1), new Method(Method.HazeStandard, Method.Luminous, Method.Colour, []))));
    }

    // By hand: independent per wavelength, u² = Σ w²u²; a drift of the 100 % line moves τt by its own share and leaves haze alone.
    [Fact]
    public void Propagate_ByHand_LuminousTransmittanceAndHaze()
    {
        TransmittanceScans scans = Specimen(2);
        double[] weights = Evaluator.LuminousTable.Y.ToArray();
        var repeatability = new UncertaintyInputs { RepeatabilityPercent = 0.1 };
        var drift = new UncertaintyInputs { HundredLineDriftPercent = 0.1 };

        MeasurandUncertainty noisy = Of(Measurands.LuminousTransmittance, scans, repeatability);
        MeasurandUncertainty drifting = Of(Measurands.LuminousTransmittance, scans, drift);

        Assert.Equal(0.1 / 100 * Math.Sqrt(weights.Sum(w => w * w)), noisy.StandardUncertainty, 1e-12);
        Assert.Equal(0.1 / 100 * drifting.Value, drifting.StandardUncertainty, 1e-12);
        Assert.Equal(0, Of(Measurands.Haze, scans, drift).StandardUncertainty, 1e-12);
        Assert.True(noisy.StandardUncertainty < drifting.StandardUncertainty, "noise averages out over the spectrum, drift does not");
    }

    [Fact]
    public void Propagate_Budget_AddsUpInSquares()
    {
        TransmittanceScans scans = Specimen(3);

        foreach (MeasurandUncertainty result in Propagate(scans, Inputs.ToSources(scans)))
        {
            Assert.Equal(result.StandardUncertainty, Math.Sqrt(result.Budget.Sum(c => c.StandardUncertainty * c.StandardUncertainty)), 1e-12);
            Assert.Equal(1, result.Budget.Sum(c => c.Share), 1e-12);
            Assert.Equal(Coverage.Factor(0.95, result.EffectiveDegreesOfFreedom) * result.StandardUncertainty, result.ExpandedUncertainty, 1e-12);
        }
    }

    // X, Y, Z share their spectrum: their covariance must make the uncertainty of the neutral x + y + z = 1 vanish.
    [Fact]
    public void Covariance_OfChromaticities_ObeysTheirSum()
    {
        TransmittanceScans scans = Specimen(4);
        var propagation = new LinearPropagation(Evaluator);
        ImmutableArray<UncertaintySource> sources = Inputs.ToSources(scans);

        double xx = propagation.Covariance(scans, sources, Measurands.TristimulusX, Measurands.TristimulusX);
        double xy = propagation.Covariance(scans, sources, Measurands.TristimulusX, Measurands.TristimulusY);
        double yy = propagation.Covariance(scans, sources, Measurands.TristimulusY, Measurands.TristimulusY);

        Assert.True(xy > 0 && xy * xy <= xx * yy);
        Assert.Equal(
            Of(Measurands.TristimulusX, scans, Inputs).StandardUncertainty, Math.Sqrt(xx), 1e-12);
    }

    // JCGM 101, clause 8: on thirty invented specimens the linear result is validated where the measurand is far from its kinks.
    // Coverage at infinite degrees of freedom on both sides; the tolerance is one significant digit of u.
    [Fact]
    public void LinearResult_OnThirtySpecimens_IsValidatedByMonteCarlo()
    {
        UncertaintyInputs inputs = Inputs with { RepeatabilityDegreesOfFreedom = double.PositiveInfinity, BandpassNm = 0 };
        ImmutableArray<Measurand> measurands =
        [
            Measurands.LuminousTransmittance, Measurands.DiffuseLuminousTransmittance, Measurands.Haze,
            Measurands.TristimulusX, Measurands.TristimulusZ, Measurands.ChromaticityX, Measurands.ChromaticityVPrime,
            Measurands.CielabL, Measurands.CielabA, Measurands.CielabB, Measurands.YellownessIndexE313, Measurands.YellownessIndexD1925,
        ];
        for (int seed = 0; seed < 30; seed++)
        {
            TransmittanceScans scans = Specimen(seed);
            ImmutableArray<UncertaintySource> sources = inputs.ToSources(scans);
            ImmutableArray<MeasurandUncertainty> linear = new LinearPropagation(Evaluator).Propagate(scans, sources, 0.95, measurands.AsSpan());
            ImmutableArray<MonteCarloResult> trials = MonteCarloPropagation.Run(
                Evaluator, scans, sources, measurands, new MonteCarloOptions(seed, 0.95, 1, 20_000, 200_000));
            for (int j = 0; j < measurands.Length; j++)
            {
                double tolerance = MonteCarloResult.Tolerance(linear[j].StandardUncertainty, 1);
                Assert.True(
                    trials[j].Validates(linear[j].Value, linear[j].ExpandedUncertainty, tolerance),
                    $"specimen {seed}, {measurands[j]}: {linear[j].Value} ± {linear[j].ExpandedUncertainty} against [{trials[j].IntervalLow}, {trials[j].IntervalHigh}]");
            }
        }
    }

    // Near zero haze, chroma is all noise: its distribution is not normal and the linear interval must not be validated.
    [Fact]
    public void LinearResult_ForChromaNearNeutral_IsNotValidated()
    {
        double[] grey = [.. Enumerable.Range(0, Grid.Count).Select(i => 0.9 + (1e-5 * Math.Sin(i)))];
        var scans = new TransmittanceScans(TransmittanceSpectrum.FromFractions(Grid, grey), null);
        var inputs = new UncertaintyInputs { RepeatabilityPercent = 0.2 };
        ImmutableArray<UncertaintySource> sources = inputs.ToSources(scans);
        ImmutableArray<Measurand> measurands = [Measurands.CielabChroma];

        MeasurandUncertainty linear = new LinearPropagation(Evaluator).Propagate(scans, sources, 0.95, measurands.AsSpan())[0];
        MonteCarloResult trials = MonteCarloPropagation.Run(Evaluator, scans, sources, measurands, new MonteCarloOptions(1, 0.95))[0];

        Assert.False(trials.Validates(linear.Value, linear.ExpandedUncertainty, MonteCarloResult.Tolerance(linear.StandardUncertainty, 1)));
    }

    // JCGM 100, 4.2.3: the type A uncertainty of a mean is s/√n; here straight from the readings' own luminous transmittances.
    [Fact]
    public void Specimens_SpreadOfTheMean_IsTheStandardDeviationOverRootN()
    {
        TransmittanceScans[] specimens = [.. Enumerable.Range(10, 5).Select(Specimen)];
        var mean = new TransmittanceScans(
            TransmittanceSpectrum.FromFractions(Grid, Average(specimens, s => s.Total)),
            TransmittanceSpectrum.FromFractions(Grid, Average(specimens, s => s.Diffuse!)));
        double[] values = [.. specimens.Select(s => Optics.Evaluations.Evaluator.Evaluate(s, Method).LuminousTransmittance.Percent)];
        double average = values.Average();
        double expected = Math.Sqrt(values.Sum(v => (v - average) * (v - average)) / (5 * 4));

        MeasurandUncertainty result = Of(Measurands.LuminousTransmittance, mean, new UncertaintyInputs { Specimens = [.. specimens] });

        Assert.Equal(expected, result.StandardUncertainty, 1e-10);
        Assert.Equal(4, result.EffectiveDegreesOfFreedom, 1e-9);
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Inputs_OutsideTheirRange_AreRefused(double value) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new UncertaintyInputs { WavelengthShiftNm = value }.ToSources(Specimen(1)));

    private static TransmittanceScans Times(TransmittanceScans scans, double factor) => new(
        TransmittanceSpectrum.FromFractions(scans.Grid, [.. scans.Total.Fractions.ToArray().Select(v => factor * v)]),
        TransmittanceSpectrum.FromFractions(scans.Grid, [.. scans.Diffuse!.Fractions.ToArray().Select(v => factor * factor * v)]));

    private static double[] Average(TransmittanceScans[] specimens, Func<TransmittanceScans, TransmittanceSpectrum> read) =>
        [.. Enumerable.Range(0, Grid.Count).Select(i => specimens.Average(s => read(s).Fractions[i]))];

    private static ImmutableArray<MeasurandUncertainty> Propagate(TransmittanceScans scans, ImmutableArray<UncertaintySource> sources)
    {
        Measurand[] measurands = [.. Optics.Evaluations.Evaluator.Evaluate(scans, Method).Values.Select(value => value.Measurand)];
        return new LinearPropagation(Evaluator).Propagate(scans, sources, 0.95, measurands);
    }

    private static MeasurandUncertainty Of(Measurand measurand, TransmittanceScans scans, UncertaintyInputs inputs) =>
        new LinearPropagation(Evaluator).Propagate(scans, inputs.ToSources(scans), 0.95, [measurand])[0];

    /// <summary>An invented film: 85-92 % clear, yellowish, 2-20 % haze.</summary>
    private static TransmittanceScans Specimen(int seed)
    {
        double blue = 0.02 + (0.004 * (seed % 10));
        double haze = 0.02 + (0.006 * (seed % 30));
        double[] total = [.. Grid.WavelengthsNm.ToArray().Select(nm => 0.92 - (0.002 * (seed % 7)) - (blue * Math.Exp(-(nm - 380) / 60)))];
        double[] diffuse = [.. Grid.WavelengthsNm.ToArray().Zip(total, (nm, t) => t * haze * Math.Pow(550 / nm, 1 + (seed % 3)))];
        return new TransmittanceScans(TransmittanceSpectrum.FromFractions(Grid, total), TransmittanceSpectrum.FromFractions(Grid, diffuse));
    }
}
