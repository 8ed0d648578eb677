using ClearView.V1;

namespace ClearView.Contract.Tests;

public class MeasurementEvaluatorTests
{
    // Sums over 43 wavelengths in double precision.
    private const double Rounding = 1e-10;

    [Fact]
    public void Evaluate_NeutralNormalisedScans_GivesTheirTransmittanceAndRatio()
    {
        Evaluation evaluation = Accept(WireExamples.Normalised(0.9, 0.018));

        Assert.Equal(90, ValueOf(evaluation, "luminous_transmittance"), Rounding);
        Assert.Equal(1.8, ValueOf(evaluation, "diffuse_luminous_transmittance"), Rounding);
        Assert.Equal(88.2, ValueOf(evaluation, "regular_luminous_transmittance"), Rounding);
        Assert.Equal(2, ValueOf(evaluation, "haze"), Rounding);
        Assert.Equal(0, ValueOf(evaluation, "cielab_a"), Rounding);
        Assert.Equal(0, ValueOf(evaluation, "cielab_b"), Rounding);
    }

    // ASTM D1003: total = 900/1000; diffuse = (22.5 - 5 * 0.9)/1000 = 1.8 %; haze = 22.5/900 - 5/1000 = 2 %.
    [Fact]
    public void Evaluate_SphereReadings_ReducesByTheFourReadings()
    {
        Evaluation evaluation = Accept(WireExamples.Sphere());

        Assert.Equal(90, ValueOf(evaluation, "luminous_transmittance"), Rounding);
        Assert.Equal(1.8, ValueOf(evaluation, "diffuse_luminous_transmittance"), Rounding);
        Assert.Equal(2, ValueOf(evaluation, "haze"), Rounding);
    }

    // ASTM D1003: haze = 2.3/92 - 0.5/100 = 2 %.
    [Fact]
    public void Evaluate_HazemeterReadings_GivesLuminousValuesOnly()
    {
        Evaluation evaluation = Accept(WireExamples.Hazemeter());

        Assert.Equal(2, ValueOf(evaluation, "haze"), Rounding);
        Assert.Equal(4, evaluation.Values.Count);
        Assert.Null(evaluation.Spectra);
        Assert.All(evaluation.Values, value => Assert.Equal("instrument", value.Weighting));
        Assert.Contains(evaluation.Caveats, caveat => caveat.Code == CaveatCode.ProcedureMismatch);
    }

    [Fact]
    public void Evaluate_SpectraLeftOut_ChangesNothingElse()
    {
        Evaluation whole = Accept(WireExamples.Normalised());

        Evaluation without = MeasurementEvaluator
            .Evaluate(WireExamples.Normalised(), MethodChoice.Given(WireExamples.Method()), WireExamples.Clock, omitSpectra: true).Evaluation!;

        Assert.NotNull(whole.Spectra);
        Assert.Null(without.Spectra);
        whole.Spectra = null;
        Assert.Equal(whole, without);
    }

    [Fact]
    public void Evaluate_SameChoiceAgain_FindsTheSameFaultsEachTime()
    {
        Method faulty = WireExamples.Method();
        faulty.HazeStandard = HazeStandard.Unspecified;
        var choice = MethodChoice.Given(faulty);

        for (int i = 0; i < 3; i++)
        {
            EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(WireExamples.Normalised(), choice, WireExamples.Clock);

            Assert.Equal("method.haze_standard", Assert.Single(outcome.Violations).Field);
        }
    }

    [Fact]
    public void Evaluate_EveryValue_SaysWhatItRestsOn()
    {
        Evaluation evaluation = Accept(WireExamples.Normalised());

        Assert.All(evaluation.Values, value =>
        {
            Assert.NotEmpty(value.Name);
            Assert.NotEmpty(value.Symbol);
            Assert.NotEmpty(value.Standard);
            Assert.NotEmpty(value.Weighting);
            Assert.Equal(10, value.IntervalNm);

            // A spectral quantity (band, edge, scattering exponent) holds for no illuminant; every other names one.
            bool isSpectral = value.Weighting.StartsWith("none", StringComparison.Ordinal);
            Assert.Equal(isSpectral, value.LightAndObserver is null);
            if (!isSpectral)
            {
                Assert.NotEmpty(value.LightAndObserver!.Illuminant);
                Assert.NotEqual(Observer.Unspecified, value.LightAndObserver.Observer);
            }
        });
        Assert.Equal("C", evaluation.Values.Single(value => value.Measurand == "haze").LightAndObserver.Illuminant);
        Assert.Equal("D65", evaluation.Values.Single(value => value.Measurand == "cielab_l").LightAndObserver.Illuminant);
        Assert.Equal("C", evaluation.Values.Single(value => value.Measurand == "yellowness_index_d1925").LightAndObserver.Illuminant);
        Assert.NotEmpty(evaluation.CieDataVersion);
    }

    [Fact]
    public void Evaluate_TotalOnly_GivesColourAndSaysThatHazeIsMissing()
    {
        Measurement measurement = WireExamples.Normalised();
        measurement.Scans.Normalised.DiffuseTransmittance.Clear();

        Evaluation evaluation = Accept(measurement);

        Assert.DoesNotContain(evaluation.Values, value => value.Measurand == "haze");
        Assert.Contains(evaluation.Values, value => value.Measurand == "cielab_l");
        Assert.Contains(evaluation.Caveats, caveat => caveat.Code == CaveatCode.DiffuseNotMeasured);
    }

    [Fact]
    public void Evaluate_PercentThatLooksLikeFraction_GetsACaveat()
    {
        Measurement measurement = WireExamples.Normalised();
        measurement.Scans.Normalised.TransmittanceUnit = TransmittanceUnit.Percent;

        Assert.Contains(Accept(measurement).Caveats, caveat => caveat.Code == CaveatCode.UnitSuspect);
    }

    [Theory]
    [InlineData(30, false)]
    [InlineData(31, true)]
    public void Evaluate_HazeAgainstTheRangeOfD1003_GetsACaveatAbove30Percent(double hazePercent, bool expected)
    {
        Evaluation evaluation = Accept(WireExamples.Normalised(0.8, 0.8 * hazePercent / 100.000001));

        Assert.Equal(expected, evaluation.Caveats.Any(caveat => caveat.Code == CaveatCode.HazeAboveStandardRange));
    }

    [Fact]
    public void Evaluate_ShortScan_SaysWhatWasExtended()
    {
        Measurement measurement = WireExamples.Normalised();
        measurement.Scans.Normalised.Grid.Regular = new RegularGrid { StartNm = 400, StepNm = 10, Count = 31 };
        Cut(measurement.Scans.Normalised, 31);

        Caveat[] extended = [.. Accept(measurement).Caveats.Where(caveat => caveat.Code == CaveatCode.RangeExtended)];

        Assert.Equal([(360.0, 400.0), (700.0, 780.0)], extended.Select(caveat => (caveat.FromNm, caveat.ToNm)));
    }

    [Fact]
    public void Evaluate_ScanBelowTheMinimumRange_NamesWhatIsMissing()
    {
        Measurement measurement = WireExamples.Normalised();
        measurement.Scans.Normalised.Grid.Regular = new RegularGrid { StartNm = 410, StepNm = 10, Count = 28 };
        Cut(measurement.Scans.Normalised, 28);

        FieldViolation violation = Assert.Single(Refuse(measurement));

        Assert.Equal("measurement.scans.normalised.grid", violation.Field);
        Assert.Contains("400-410 nm and 680-700 nm", violation.Description, StringComparison.Ordinal);
    }

    private static void Cut(NormalisedScans scans, int count)
    {
        double[] total = [.. scans.TotalTransmittance.Take(count)];
        double[] diffuse = [.. scans.DiffuseTransmittance.Take(count)];
        scans.TotalTransmittance.Clear();
        scans.TotalTransmittance.AddRange(total);
        scans.DiffuseTransmittance.Clear();
        scans.DiffuseTransmittance.AddRange(diffuse);
    }

    private static Evaluation Accept(Measurement measurement)
    {
        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(measurement, WireExamples.Method(), WireExamples.Clock);
        Assert.Empty(outcome.Violations);
        Assert.True(outcome.IsAccepted);
        return outcome.Evaluation;
    }

    private static IEnumerable<FieldViolation> Refuse(Measurement measurement)
    {
        EvaluationOutcome outcome = MeasurementEvaluator.Evaluate(measurement, WireExamples.Method(), WireExamples.Clock);
        Assert.False(outcome.IsAccepted);
        return outcome.Violations;
    }

    private static double ValueOf(Evaluation evaluation, string measurand) =>
        evaluation.Values.Single(value => value.Measurand == measurand).Value;
}
