using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Spectra;
using ClearView.Optics.Transmission;
using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Tests.Uncertainty;

/// <summary>Every colour measurand under a method that asks for all of them: values, derivatives, uncertainty.</summary>
public class ColourMeasurandTests
{
    private static readonly WavelengthGrid Grid = WavelengthGrid.Between(380, 780, 10);

    private static readonly UncertaintyInputs Repeatability = new() { RepeatabilityPercent = 0.05 };

    // The reference is far enough from the specimens for no difference to sit at its kink.
    private static readonly Method Full = MethodWith(new CieLab(93, 1.5, -3));

    private static readonly ImmutableArray<Measurand> Added =
    [
        Measurands.CieluvU, Measurands.CieluvV, Measurands.CieluvChroma, Measurands.CieluvHue,
        Measurands.YellownessIndexIso17223, Measurands.ChangeInYellownessIso17223,
        Measurands.DeltaE94, Measurands.DeltaECmc, Measurands.DeltaE2000,
    ];

    public static TheoryData<int> Seeds { get; } = [1, 2, 3];

    [Fact]
    public void FullMethod_GivesEveryColourMeasurand()
    {
        Measurand[] values = [.. Evaluator.Evaluate(Specimen(1), Full).Values.Select(value => value.Measurand)];

        Assert.All([.. Added, Measurands.MetamerismIndex], measurand => Assert.Contains(measurand, values));
    }

    // The differentiable form and the evaluation are two ways to the same number.
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Propagate_EveryMeasurand_HasTheValueOfTheEvaluationAndAnUncertainty(int seed)
    {
        Evaluation evaluation = Evaluator.Evaluate(Specimen(seed), Full);
        ImmutableArray<MeasurandUncertainty> results = Propagate(Specimen(seed), Full, Repeatability);

        Assert.Equal(evaluation.Values.Select(value => value.Measurand), results.Select(result => result.Measurand));
        Assert.All(evaluation.Values.Zip(results), pair =>
        {
            Assert.Equal(pair.First.Value, pair.Second.Value, 1e-9 * Math.Max(1, Math.Abs(pair.First.Value)));
            Assert.True(pair.Second.StandardUncertainty > 0, pair.First.Measurand.Id);
        });
    }

    // Central differences of the whole evaluation, wavelength by wavelength: u² = Σ (∂y/∂T)²u² (JCGM 100, 5.1.2). Band maxima and
    // edges are left out: they jump from one wavelength to the next.
    [Theory]
    [MemberData(nameof(Seeds))]
    public void Propagate_EverySmoothMeasurand_HasTheDerivativesOfTheEvaluation(int seed)
    {
        TransmittanceScans scans = Specimen(seed);
        const double step = 1e-4;
        double u = Repeatability.RepeatabilityPercent / 100;
        var squares = new Dictionary<Measurand, double>();
        for (int i = 0; i < Grid.Count; i++)
        {
            foreach ((Measurand measurand, double slope) in Slopes(Move(scans, i, step), Move(scans, i, -step), step))
            {
                squares[measurand] = squares.GetValueOrDefault(measurand) + (slope * slope * u * u);
            }
        }

        MeasurandUncertainty[] smooth = [.. Propagate(scans, Full, Repeatability).Where(result => IsOfColour(result.Measurand))];
        Assert.True(smooth.Length >= 30);
        Assert.All(smooth, result =>
        {
            double expected = Math.Sqrt(squares[result.Measurand]);
            Assert.True(
                Math.Abs(expected - result.StandardUncertainty) <= 1e-4 * expected,
                $"{result.Measurand}: {result.StandardUncertainty}, by differences {expected}");
        });
    }

    // JCGM 101, clause 8, to one significant digit of u.
    [Theory]
    [MemberData(nameof(Seeds))]
    public void LinearResult_OfTheAddedMeasurands_IsValidatedByMonteCarlo(int seed)
    {
        TransmittanceScans scans = Specimen(seed);
        ImmutableArray<UncertaintySource> sources = new UncertaintyInputs
        {
            RepeatabilityPercent = 0.05,
            ZeroOffsetPercent = 0.02,
            HundredLineDriftPercent = 0.05,
            WavelengthShiftNm = 0.1,
        }.ToSources(scans);
        var evaluator = new ReadingEvaluator(Grid, Full);

        ImmutableArray<MeasurandUncertainty> linear = new LinearPropagation(evaluator).Propagate(scans, sources, 0.95, Added.AsSpan());
        ImmutableArray<MonteCarloResult> trials = MonteCarloPropagation.Run(
            evaluator, scans, sources, Added, new MonteCarloOptions(seed, 0.95, 1, 20_000, 200_000));

        Assert.All(linear.Zip(trials), pair => Assert.True(
            pair.Second.Validates(pair.First.Value, pair.First.ExpandedUncertainty, MonteCarloResult.Tolerance(pair.First.StandardUncertainty, 1)),
            $"{pair.First.Measurand}: {pair.First.Value} ± {pair.First.ExpandedUncertainty} against [{pair.Second.IntervalLow}, {pair.Second.IntervalHigh}]"));
    }

    // The metamerism index rests on six sums that the product's trials do not draw: spectra are drawn here. 4000 trials know a
    // standard deviation to 1/√8000 = 1.1 %; asked are three of those and the curvature's share.
    [Fact]
    public void LinearResult_OfTheMetamerismIndex_IsThatOfDrawnSpectra()
    {
        TransmittanceScans scans = Specimen(1);
        var random = new Random(15);
        double[] drawn =
        [
            .. Enumerable.Range(0, 4000).Select(_ => Read(
                Measurands.MetamerismIndex,
                new TransmittanceScans(
                    TransmittanceSpectrum.FromFractions(Grid, [.. scans.Total.Fractions.ToArray().Select(t => t + (0.0005 * Normal(random)))]),
                    null))),
        ];
        double mean = drawn.Average();
        double deviation = Math.Sqrt(drawn.Sum(value => (value - mean) * (value - mean)) / (drawn.Length - 1));

        MeasurandUncertainty linear = Propagate(scans, Full, Repeatability).Single(result => result.Measurand == Measurands.MetamerismIndex);

        Assert.Equal(deviation, linear.StandardUncertainty, 0.035 * deviation);
        Assert.Equal(mean, linear.Value, 0.1 * deviation);
    }

    // A neutral reference is a common one: it has no hue, but its differences have derivatives all the same. Only ΔH*, which is 0 by
    // definition there, has none.
    [Fact]
    public void Propagate_AgainstANeutralReference_GivesEveryDifferenceButHueAnUncertainty()
    {
        Method neutral = MethodWith(new CieLab(94, 0, 0));
        Measurand[] wanted =
        [
            Measurands.DeltaL, Measurands.DeltaA, Measurands.DeltaB, Measurands.DeltaChroma,
            Measurands.DeltaEab, Measurands.DeltaE2000, Measurands.DeltaE94, Measurands.DeltaECmc, Measurands.MetamerismIndex,
        ];

        Measurand[] given = [.. Propagate(Specimen(2), neutral, Repeatability).Select(result => result.Measurand)];

        Assert.All(wanted, measurand => Assert.Contains(measurand, given));
    }

    // The basis of a value names the standard that defines it, with factors that are not the usual ones.
    [Fact]
    public void Basis_OfADifference_NamesStandardAndFactors()
    {
        Evaluation evaluation = Evaluator.Evaluate(Specimen(1), Full);

        Assert.Equal("CIE 116, kL:kC:kH = 1.5:1:0.8", Standard(Measurands.DeltaE94));
        Assert.Equal("ISO/CIE 11664-6, kL:kC:kH = 1.5:1:0.8", Standard(Measurands.DeltaE2000));
        Assert.Equal("ISO 105-J03, CMC(1.4:1)", Standard(Measurands.DeltaECmc));
        Assert.Equal("ISO/CIE 11664-5", Standard(Measurands.CieluvU));
        Assert.Equal("ISO 17223", Standard(Measurands.ChangeInYellownessIso17223));
        Assert.All(evaluation.Values.Where(value => IsOfColour(value.Measurand)), value => Assert.NotNull(value.Basis.LightAndObserver));

        string Standard(Measurand measurand) => evaluation.Values.Single(value => value.Measurand == measurand).Basis.Standard;
    }

    private static Method MethodWith(CieLab reference) => new(
        HazeStandard.AstmD1003ProcedureB,
        LightAndObserver.CDegree2,
        LightAndObserver.D65Degree10,
        [YellownessKind.AstmE313, YellownessKind.Iso17223, YellownessKind.AstmD1925])
    {
        ReferenceColour = reference,
        InitialYellownessIndex = -2,
        DifferenceFactors = new DifferenceFactors(1.5, 1, 0.8, 1.4, 1),
        Metamerism = new MetamerismTest(new LightAndObserver(Illuminant.A, Observer.Cie1964Degree10), new CieLab(92, 2.5, -1)),
    };

    private static bool IsOfColour(Measurand measurand) => measurand.Differentiable is not null || measurand == Measurands.MetamerismIndex;

    private static IEnumerable<(Measurand Measurand, double Slope)> Slopes(TransmittanceScans up, TransmittanceScans down, double step)
    {
        var low = Evaluator.Evaluate(down, Full).Values.ToDictionary(value => value.Measurand, value => value.Value);
        return Evaluator.Evaluate(up, Full).Values
            .Where(value => low.ContainsKey(value.Measurand))
            .Select(value => (value.Measurand, (value.Value - low[value.Measurand]) / (2 * step)));
    }

    /// <summary>Moves the total transmittance at one wavelength.</summary>
    private static TransmittanceScans Move(TransmittanceScans scans, int index, double by)
    {
        double[] total = scans.Total.Fractions.ToArray();
        total[index] += by;
        return new TransmittanceScans(TransmittanceSpectrum.FromFractions(Grid, total), null);
    }

    private static double Read(Measurand measurand, TransmittanceScans scans) => measurand.Read(Evaluator.Evaluate(scans, Full))!.Value;

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static ImmutableArray<MeasurandUncertainty> Propagate(TransmittanceScans scans, Method method, UncertaintyInputs inputs)
    {
        Measurand[] measurands = [.. Evaluator.Evaluate(scans, method).Values.Select(value => value.Measurand)];
        return new LinearPropagation(new ReadingEvaluator(Grid, method)).Propagate(scans, inputs.ToSources(scans), 0.95, measurands);
    }

    /// <summary>An invented film without diffuse scan: clear, yellowish, with a weak band in the red.</summary>
    private static TransmittanceScans Specimen(int seed)
    {
        double blue = 0.04 + (0.01 * seed);
        double[] total =
        [
            .. Grid.WavelengthsNm.ToArray().Select(nm =>
                0.9 - (blue * Math.Exp(-(nm - 380) / 60)) - (0.01 * seed * Math.Exp(-Math.Pow((nm - 610) / 30, 2)))),
        ];
        return new TransmittanceScans(TransmittanceSpectrum.FromFractions(Grid, total), null);
    }
}
