using ClearView.V1;

namespace ClearView.Contract.Tests;

/// <summary>Parametric factors, metamerism and ISO 17223, from the wire to the wire.</summary>
public class ColourChoiceTests
{
    public static TheoryData<string, string, Action<Method>> Spoilers { get; } = new()
    {
        { "method.difference_factors.lightness", "was 0;", m => m.DifferenceFactors = Factors(lightness: 0) },
        { "method.difference_factors.chroma", "was 10.001;", m => m.DifferenceFactors = Factors(chroma: 10.001) },
        { "method.difference_factors.hue", "was NaN;", m => m.DifferenceFactors = Factors(hue: double.NaN) },
        { "method.difference_factors.cmc_lightness", "was -1;", m => m.DifferenceFactors = Factors(cmcLightness: -1) },
        { "method.difference_factors.cmc_chroma", "was Infinity;", m => m.DifferenceFactors = Factors(cmcChroma: double.PositiveInfinity) },
        { "method.metamerism.test_light", "was missing;", m => m.Metamerism.TestLight = null },
        { "method.metamerism.test_light.illuminant", "expected", m => m.Metamerism.TestLight.Illuminant = "candle" },
        { "method.metamerism.test_light.illuminant", "was D65, that of the colour pair;", m => m.Metamerism.TestLight.Illuminant = "D65" },
        { "method.metamerism.test_light.observer", "was UNSPECIFIED;", m => m.Metamerism.TestLight.Observer = Observer.Unspecified },
        { "method.metamerism.test_light.observer", "was 2°; expected 10°", m => m.Metamerism.TestLight.Observer = Observer.Cie19312Deg },
        { "method.metamerism.reference_colour", "was missing;", m => m.Metamerism.ReferenceColour = null },
        { "method.metamerism.reference_colour.l_star", "was 201;", m => m.Metamerism.ReferenceColour.LStar = 201 },
        { "method.reference_colour", "was missing;", m => m.ReferenceColour = null },
        { "method.yellowness_indices", "asked for ISO 17223 under D65/2°; expected a colour pair that it knows: C/2°, D65/10°.", m => OnlyIso(m).Colour.Observer = Observer.Cie19312Deg },
        { "method.yellowness_indices", "asked for ISO 17223 under C/10°;", m => OnlyIso(m).Colour.Illuminant = "C" },
        { "method.initial_yellowness_index", "was 1.5; expected ASTM E313 or ISO 17223", m => Initial(m).YellownessIndices.Remove(YellownessIndex.AstmE313) },
    };

    [Theory]
    [MemberData(nameof(Spoilers))]
    public void Evaluate_OneChoiceSpoilt_NamesThatFieldOnlyAndWhatWouldBeRight(string field, string words, Action<Method> spoil)
    {
        Method method = Sound();
        spoil(method);

        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(WireExamples.Normalised(), method, WireExamples.Clock);

        FieldViolation violation = Assert.Single(outcome.Violations);
        Assert.Equal(field, violation.Field);
        Assert.Contains(words, violation.Description, StringComparison.Ordinal);
        Assert.Contains("expected", violation.Description, StringComparison.Ordinal);
    }

    // The edges of each range are accepted.
    [Theory]
    [InlineData(1e-6)]
    [InlineData(10)]
    public void Evaluate_FactorsAtTheEdges_AreAccepted(double factor)
    {
        Method method = Sound();
        method.DifferenceFactors = Factors(factor, factor, factor, factor, factor);

        Assert.Empty(MeasurementEvaluator.Evaluate(WireExamples.Normalised(), method, WireExamples.Clock).Violations);
    }

    // By hand: film and reference are both neutral, so that only lightness counts. CIE94 and CIEDE2000 with kL, CMC with l:
    // ΔL*/kL, ΔL*/(kL·SL) and ΔL*/(l·SL) with the SL of each standard.
    [Fact]
    public void Evaluate_NeutralDifference_FollowsTheFactors()
    {
        Method method = Sound();
        method.ReferenceColour = new CielabColour { LStar = 94, AStar = 0, BStar = 0 };
        method.DifferenceFactors = Factors(lightness: 2, cmcLightness: 1);

        Evaluation evaluation = Accept(WireExamples.Normalised(), method);
        double l = ValueOf(evaluation, "cielab_l").Value;
        double square = Math.Pow(((l + 94) / 2) - 50, 2);

        Assert.Equal((l - 94) / 2, ValueOf(evaluation, "delta_e_94").Value, 1e-9);
        Assert.Equal((l - 94) / (0.040975 * 94 / (1 + (0.01765 * 94))), ValueOf(evaluation, "delta_e_cmc").Value, 1e-9);
        Assert.Equal((l - 94) / (2 * (1 + (0.015 * square / Math.Sqrt(20 + square)))), ValueOf(evaluation, "delta_e_2000").Value, 1e-9);
        Assert.Equal("CIE 116, kL:kC:kH = 2:1:1", ValueOf(evaluation, "delta_e_94").Standard);
        Assert.Equal("ISO 105-J03, CMC(1:1)", ValueOf(evaluation, "delta_e_cmc").Standard);
        Assert.Equal("ISO/CIE 11664-6, kL:kC:kH = 2:1:1", ValueOf(evaluation, "delta_e_2000").Standard);
    }

    [Fact]
    public void Evaluate_WithoutFactors_TakesTheUsualOnes()
    {
        Evaluation evaluation = Accept(WireExamples.Normalised(), Sound());

        Assert.Equal("CIE 116", ValueOf(evaluation, "delta_e_94").Standard);
        Assert.Equal("ISO 105-J03, CMC(2:1)", ValueOf(evaluation, "delta_e_cmc").Standard);
        Assert.Equal("ISO/CIE 11664-6", ValueOf(evaluation, "delta_e_2000").Standard);
    }

    // By hand: a film of one transmittance at all wavelengths is a neutral copy of the white. Brought to the reference's X, Y, Z it
    // is the reference under every light, so that against that colour under the test light the index is 0, and one unit of
    // b* away from it, 1.
    [Theory]
    [InlineData(0, 0)]
    [InlineData(1, 1)]
    public void Evaluate_MetamerismOfANeutralFilm_IsTheDistanceUnderTheTestLight(double bStar, double expected)
    {
        Method method = Sound();
        method.ReferenceColour = new CielabColour { LStar = 94, AStar = 0, BStar = 0 };
        method.Metamerism.ReferenceColour = new CielabColour { LStar = 94, AStar = 0, BStar = bStar };

        MeasuredValue index = ValueOf(Accept(WireExamples.Normalised(), method), "metamerism_index");

        Assert.Equal(expected, index.Value, 1e-9);
        Assert.Equal("CIE 15, ΔE*ab, test light A/10°", index.Standard);
        Assert.Equal("D65", index.LightAndObserver.Illuminant);
    }

    [Fact]
    public void Evaluate_YellownessAfterIso17223_HasTheNameOfTheStandardAndTheChange()
    {
        Method method = Initial(OnlyIso(Sound()));

        Evaluation evaluation = Accept(WireExamples.Normalised(), method);
        MeasuredValue index = ValueOf(evaluation, "yellowness_index_iso17223");
        MeasuredValue change = ValueOf(evaluation, "change_in_yellowness_iso17223");

        Assert.Equal("ISO 17223", index.Standard);
        Assert.Equal("ISO 17223", change.Standard);
        Assert.Equal(index.Value - 1.5, change.Value, 1e-12);
        Assert.DoesNotContain(evaluation.Values, value => value.Measurand.EndsWith("e313", StringComparison.Ordinal));
    }

    // Both indices have the same figures, so that one initial index serves both.
    [Fact]
    public void Evaluate_BothIndices_AgreeInValueAndChange()
    {
        Method method = Initial(Sound());
        method.YellownessIndices.Add(YellownessIndex.Iso17223);

        Evaluation evaluation = Accept(WireExamples.Normalised(), method);

        Assert.Equal(ValueOf(evaluation, "yellowness_index_e313").Value, ValueOf(evaluation, "yellowness_index_iso17223").Value);
        Assert.Equal(ValueOf(evaluation, "change_in_yellowness_e313").Value, ValueOf(evaluation, "change_in_yellowness_iso17223").Value);
    }

    private static Method Sound()
    {
        Method method = WireExamples.Method();
        method.ReferenceColour = new CielabColour { LStar = 94, AStar = 0.5, BStar = -2 };
        method.Metamerism = new Metamerism
        {
            TestLight = new LightAndObserver { Illuminant = "A", Observer = Observer.Cie196410Deg },
            ReferenceColour = new CielabColour { LStar = 94, AStar = 0.2, BStar = -2.2 },
        };
        return method;
    }

    private static Method OnlyIso(Method method)
    {
        method.Metamerism = null;
        method.YellownessIndices.Clear();
        method.YellownessIndices.Add(YellownessIndex.Iso17223);
        return method;
    }

    private static Method Initial(Method method)
    {
        method.InitialYellownessIndex = 1.5;
        return method;
    }

    private static DifferenceFactors Factors(
        double lightness = 1, double chroma = 1, double hue = 1, double cmcLightness = 2, double cmcChroma = 1) => new()
        {
            Lightness = lightness,
            Chroma = chroma,
            Hue = hue,
            CmcLightness = cmcLightness,
            CmcChroma = cmcChroma,
        };

    private static Evaluation Accept(Measurement measurement, Method method)
    {
        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(measurement, method, WireExamples.Clock);
        Assert.Empty(outcome.Violations);
        return outcome.Evaluation!;
    }

    private static MeasuredValue ValueOf(Evaluation evaluation, string measurand) =>
        evaluation.Values.Single(value => value.Measurand == measurand);
}
