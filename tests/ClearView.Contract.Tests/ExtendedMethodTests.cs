using ClearView.V1;

namespace ClearView.Contract.Tests;

/// <summary>The optional choices of a method, from the wire to the wire.</summary>
public class ExtendedMethodTests
{
    public static TheoryData<string, Action<Measurement, Method>> Spoilers { get; } = new()
    {
        { "method.colour.illuminant", (_, m) => m.Colour.Illuminant = "daylight-3999K" },
        { "method.colour.illuminant", (_, m) => m.Colour.Illuminant = "planckian-90000K" },
        { "method.luminous.illuminant", (_, m) => OwnLamp(m).Luminous.Illuminant = "D65" },
        { "method.luminous.spectral_power", (_, m) => OwnLamp(m).Luminous.SpectralPower.RelativePower[2] = -1 },
        { "method.luminous.spectral_power.relative_power[1]", (_, m) => OwnLamp(m).Luminous.SpectralPower.RelativePower[1] = double.NaN },
        { "method.luminous.spectral_power.relative_power", (_, m) => OwnLamp(m).Luminous.SpectralPower.RelativePower.Add(1) },
        { "method.reference_colour.a_star", (_, m) => m.ReferenceColour = new CielabColour { LStar = 95, AStar = 301, BStar = 0 } },
        { "method.initial_yellowness_index", (_, m) => m.InitialYellownessIndex = double.NaN },
        { "method.bands[0]", (_, m) => m.Bands.Add(new WavelengthBand { FromNm = 500, ToNm = 500 }) },
        { "method.bands", (_, m) => m.Bands.AddRange(Enumerable.Repeat(new WavelengthBand { FromNm = 400, ToNm = 500 }, 21)) },
        { "method.light_barrier_limit_percent", (_, m) => m.LightBarrierLimitPercent = 0 },
        { "method.reference_thickness.thickness_um", (_, m) => m.ReferenceThickness = new ReferenceThickness { Resin = "pmma" } },
        { "method.reference_thickness.resin", (_, m) => m.ReferenceThickness = new ReferenceThickness { ThicknessUm = 50, Resin = "glue" } },
        { "method.reference_thickness.refractive_index", (_, m) => m.ReferenceThickness = new ReferenceThickness { ThicknessUm = 50, RefractiveIndex = 1 } },
        { "method.reference_thickness", (_, m) => m.ReferenceThickness = new ReferenceThickness { ThicknessUm = 50 } },
        { "measurement.conditions.thickness_um", (s, m) => Untold(s, m) },
        { "method.uncertainty.coverage_percent", (_, m) => m.Uncertainty = new UncertaintyInputs { CoveragePercent = 100 } },
        { "method.uncertainty.wavelength_shift_nm", (_, m) => m.Uncertainty = new UncertaintyInputs { CoveragePercent = 95, WavelengthShiftNm = -0.1 } },
        { "method.uncertainty.repeatability_reading_count", (_, m) => m.Uncertainty = new UncertaintyInputs { CoveragePercent = 95, RepeatabilityReadingCount = 1 } },
        {
            "method.uncertainty.repeatability_by_wavelength_percent",
            (_, m) => m.Uncertainty = new UncertaintyInputs { CoveragePercent = 95, RepeatabilityByWavelengthPercent = { 0.1 } }
        },
        { "method.uncertainty.monte_carlo.significant_digits", (_, m) => m.Uncertainty = new UncertaintyInputs { CoveragePercent = 95, MonteCarlo = new MonteCarlo { SignificantDigits = 3 } } },
    };

    [Theory]
    [MemberData(nameof(Spoilers))]
    public void Evaluate_OneChoiceSpoilt_NamesThatFieldOnly(string field, Action<Measurement, Method> spoil)
    {
        Measurement measurement = Film();
        Method method = WireExamples.Method();
        spoil(measurement, method);

        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(measurement, method, WireExamples.Clock);

        Assert.Equal(field, Assert.Single(outcome.Violations).Field);
    }

    [Theory]
    [InlineData("D55")]
    [InlineData("D75")]
    [InlineData("E")]
    [InlineData("FL11")]
    [InlineData("daylight-5200K")]
    [InlineData("planckian-3200K")]
    public void Evaluate_UnderEveryKindOfLight_IsNeutralForANeutralFilm(string illuminant)
    {
        Method method = WireExamples.Method();
        method.YellownessIndices.Clear();
        method.Colour.Illuminant = illuminant;

        Evaluation evaluation = Accept(Film(), method);

        Assert.Equal(0, ValueOf(evaluation, "cielab_a").Value, 1e-9);
        Assert.Equal(0, ValueOf(evaluation, "cielab_b").Value, 1e-9);
        Assert.Equal(90, ValueOf(evaluation, "tristimulus_y").Value, 1e-9);
        Assert.Equal(illuminant, ValueOf(evaluation, "cielab_a").LightAndObserver.Illuminant);
    }

    [Fact]
    public void Evaluate_UnderALampOfOnesOwn_SaysWhereItWasExtended()
    {
        Method method = OwnLamp(WireExamples.Method());

        Evaluation evaluation = Accept(Film(), method);

        Assert.Equal(90, ValueOf(evaluation, "luminous_transmittance").Value, 1e-9);
        Assert.Contains(evaluation.Caveats, caveat => caveat.Code == CaveatCode.IlluminantRangeExtended && caveat.FromNm == 700 && caveat.ToNm == 780);
    }

    [Fact]
    public void Evaluate_WithAReferenceColour_GivesTheDifferenceInFiguresAndWords()
    {
        Method method = WireExamples.Method();
        method.ReferenceColour = new CielabColour { LStar = 94, AStar = 0.5, BStar = -2 };

        Evaluation evaluation = Accept(Film(), method);
        double lightness = ValueOf(evaluation, "cielab_l").Value - 94;

        Assert.Equal(2, ValueOf(evaluation, "delta_b").Value, 1e-9);
        Assert.Equal(Math.Sqrt((lightness * lightness) + 0.25 + 4), ValueOf(evaluation, "delta_e_ab").Value, 1e-9);
        Assert.Equal(["yellower", "lighter", "greener"], evaluation.DifferenceWords);
    }

    // Bouguer-Lambert with surfaces: twice the thickness of a clear, non-absorbing slab changes nothing.
    [Fact]
    public void Evaluate_AtAReferenceThickness_LeavesANonAbsorbingSlabAlone()
    {
        const double index = 1.5;
        double surface = Math.Pow((index - 1) / (index + 1), 2);
        Measurement slab = WireExamples.Normalised((1 - surface) / (1 + surface), 0.001);
        slab.Conditions.ThicknessUm = 1000;
        Method method = WireExamples.Method();
        method.ReferenceThickness = new ReferenceThickness { ThicknessUm = 2000, RefractiveIndex = index };

        Evaluation evaluation = Accept(slab, method);

        Assert.Equal(
            ValueOf(evaluation, "luminous_transmittance").Value,
            evaluation.AtReferenceThickness.Values.Single(value => value.Measurand == "luminous_transmittance").Value,
            1e-9);
        Assert.Equal(100 * (1 - Math.Pow(1 - (ValueOf(evaluation, "haze").Value / 100), 2)), evaluation.AtReferenceThickness.BulkHazePercent, 1e-9);
        Assert.Contains(evaluation.Caveats, caveat => caveat.Code == CaveatCode.HazeScaledByModel);
    }

    // By hand: H′ = 1 − (1 − H)² has the slope 2(1 − H).
    [Fact]
    public void Evaluate_AtTwiceTheThickness_CarriesTheUncertaintyOfHazeThroughTheModel()
    {
        Measurement film = WireExamples.Normalised(0.90, 0.09);
        film.Conditions.ThicknessUm = 50;
        Method method = WireExamples.Method();
        method.ReferenceThickness = new ReferenceThickness { ThicknessUm = 100, Resin = "pet" };
        method.Uncertainty = new UncertaintyInputs { CoveragePercent = 95, RepeatabilityPercent = 0.1, ZeroOffsetPercent = 0.05 };

        Evaluation evaluation = Accept(film, method);

        MeasuredValue haze = ValueOf(evaluation, "haze");
        Uncertainty scaled = evaluation.AtReferenceThickness.BulkHazeUncertainty;
        double slope = 2 * (1 - (haze.Value / 100));
        Assert.Equal(slope * haze.Uncertainty.StandardUncertainty, scaled.StandardUncertainty, 1e-12);
        Assert.Equal(scaled.CoverageFactor * scaled.StandardUncertainty, scaled.ExpandedUncertainty, 1e-12);
        Assert.Equal(Math.Pow(scaled.StandardUncertainty, 2), scaled.Budget.Sum(part => Math.Pow(part.StandardUncertainty, 2)), 1e-12);
    }

    [Fact]
    public void Evaluate_WithALightBarrierLimit_RefusesToGuessBelowWhatWasMeasured()
    {
        Method method = WireExamples.Method();
        method.LightBarrierLimitPercent = 10;

        Evaluation evaluation = Accept(Film(), method);

        Assert.Null(evaluation.LightBarrier);
        Assert.Contains(evaluation.Caveats, caveat => caveat.Code == CaveatCode.LightBarrierNotMeasured);
    }

    [Fact]
    public void Evaluate_WithALightBarrierLimitAndDataDownTo290_ScreensWithItsCaution()
    {
        Measurement bottle = WireExamples.Normalised();
        NormalisedScans scans = bottle.Scans.Normalised;
        scans.Grid.Regular = new RegularGrid { StartNm = 290, StepNm = 10, Count = 50 };
        scans.TotalTransmittance.Clear();
        scans.DiffuseTransmittance.Clear();
        scans.TotalTransmittance.AddRange(Enumerable.Range(0, 50).Select(i => i < 16 ? 0.02 : 0.5));
        scans.TotalTransmittance[10] = 0.11;
        Method method = WireExamples.Method();
        method.LightBarrierLimitPercent = 10;

        Evaluation evaluation = Accept(bottle, method);

        Assert.False(evaluation.LightBarrier.WithinLimit);
        Assert.Equal(0.5 * 100, evaluation.LightBarrier.MaximumPercent, 1e-9);
        Assert.Equal(450, evaluation.LightBarrier.MaximumAtNm);
        Assert.Contains("pharmacopoeia", evaluation.LightBarrier.Caution, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_WithUncertainty_GivesEveryValueItsBudget()
    {
        Method method = WireExamples.Method();
        method.Uncertainty = new UncertaintyInputs
        {
            CoveragePercent = 95,
            RepeatabilityPercent = 0.05,
            HundredLineDriftPercent = 0.1,
            MonteCarlo = new MonteCarlo { Seed = 1 },
        };

        Evaluation evaluation = Accept(Yellowish(), method);

        Assert.All(evaluation.Values, value =>
        {
            Assert.NotNull(value.Uncertainty);
            Assert.Equal(["Repeatability", "100 % line drift"], value.Uncertainty.Budget.Select(part => part.Source));
            Assert.Equal(value.Uncertainty.StandardUncertainty * value.Uncertainty.CoverageFactor, value.Uncertainty.ExpandedUncertainty, 1e-12);
        });
        Assert.True(ValueOf(evaluation, "luminous_transmittance").Uncertainty.MonteCarlo.ConfirmsLinear);
    }

    [Fact]
    public void Evaluate_RecordedConditions_AreHeldAgainstTheStandard()
    {
        Measurement measurement = Film();
        measurement.Conditions.ConditioningTemperatureC = 26;
        measurement.Conditions.SpecimenCount = 3;

        Evaluation evaluation = Accept(measurement, WireExamples.Method());

        Assert.Equal(ConformityOutcome.NotMet, Finding("temperature").Outcome);
        Assert.Equal(ConformityOutcome.Met, Finding("number of specimens").Outcome);
        Assert.Equal(ConformityOutcome.NotRecorded, Finding("time of conditioning").Outcome);
        Assert.Equal(ConformityOutcome.Met, Finding("C/2°").Outcome);

        ConformityFinding Finding(string requirement) =>
            evaluation.Conformity.Single(finding => finding.Requirement.StartsWith(requirement, StringComparison.Ordinal));
    }

    [Fact]
    public void Evaluate_HazemeterReadingsWithUncertainty_AreRefused()
    {
        Method method = WireExamples.Method();
        method.Uncertainty = new UncertaintyInputs { CoveragePercent = 95 };

        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(WireExamples.Hazemeter(), method, WireExamples.Clock);

        Assert.Equal("method.uncertainty", Assert.Single(outcome.Violations).Field);
    }

    [Theory]
    [InlineData(50, true)]
    [InlineData(50.1, false)]
    public void Evaluate_TableOfRefractiveIndices_MayHaveGapsUpTo50Nm(double gapNm, bool accepted)
    {
        Method method = WireExamples.Method();
        method.ReferenceThickness = new ReferenceThickness
        {
            ThicknessUm = 50,
            Table = new RefractiveIndexTable { WavelengthNm = { 500, 500 + gapNm }, RefractiveIndex = { 1.5, 1.49 } },
        };

        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(Film(), method, WireExamples.Clock);

        Assert.Equal(
            accepted ? [] : ["method.reference_thickness.table.wavelength_nm[1]"], outcome.Violations.Select(violation => violation.Field));
    }

    private static Measurement Film()
    {
        Measurement film = WireExamples.Normalised();
        film.Conditions.ThicknessUm = 40;
        return film;
    }

    private static Measurement Yellowish()
    {
        Measurement film = WireExamples.Normalised();
        for (int i = 0; i < 43; i++)
        {
            film.Scans.Normalised.TotalTransmittance[i] -= 0.05 * Math.Exp(-i / 8.0);
        }

        return film;
    }

    private static void Untold(Measurement measurement, Method method)
    {
        measurement.Conditions.ClearThicknessUm();
        method.ReferenceThickness = new ReferenceThickness { ThicknessUm = 50, Resin = "pet" };
    }

    private static Method OwnLamp(Method method)
    {
        method.Luminous.Illuminant = "booth lamp 3";
        method.Luminous.SpectralPower = new SpectralPower { WavelengthNm = { 360, 400, 450, 500, 550, 600, 650, 700 }, RelativePower = { 1, 2, 5, 9, 12, 15, 16, 17 } };
        return method;
    }

    private static Evaluation Accept(Measurement measurement, Method method)
    {
        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(measurement, method, WireExamples.Clock);
        Assert.Empty(outcome.Violations);
        return outcome.Evaluation!;
    }

    private static MeasuredValue ValueOf(Evaluation evaluation, string measurand) =>
        evaluation.Values.Single(value => value.Measurand == measurand);
}
