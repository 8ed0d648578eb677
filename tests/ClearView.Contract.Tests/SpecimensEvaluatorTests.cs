using ClearView.V1;

namespace ClearView.Contract.Tests;

/// <summary>Specimens that are not all scanned alike, and requests that are given up.</summary>
public class SpecimensEvaluatorTests
{
    [Fact]
    public void Evaluate_DifferentGrids_AreAveragedEachOnItsOwn()
    {
        Measurement[] measurements = [WireExamples.Normalised(0.84), Every5Nm(0.86)];
        Method method = WireExamples.Method();
        method.Uncertainty = new UncertaintyInputs { CoveragePercent = 95, HundredLineDriftPercent = 1 };

        SpecimensOutcome outcome = Evaluate(measurements, method);

        // By hand: √(1² + 0.85²) %, the spread of 84 % and 86 %, and the drift of 1 % of their mean.
        Assert.Empty(outcome.Violations);
        Assert.Equal([10.0, 5.0], outcome.Response!.Evaluations.Select(one => one.Spectra.Grid.Regular.StepNm));
        SpecimenMean mean = Mean(outcome, "luminous_transmittance");
        Assert.Equal(85, mean.Mean, 1e-9);
        Assert.Equal(Math.Sqrt(1.7225), mean.Uncertainty.StandardUncertainty, 1e-9);
    }

    [Fact]
    public void Evaluate_RepeatabilityOfAnotherGrid_IsNamedOnce()
    {
        Measurement[] measurements = [WireExamples.Normalised(0.84), Every5Nm(0.85), Every5Nm(0.86)];
        Method method = WireExamples.Method();
        method.Uncertainty = new UncertaintyInputs { CoveragePercent = 95, RepeatabilityByWavelengthPercent = { Enumerable.Repeat(0.1, 43) } };

        SpecimensOutcome outcome = Evaluate(measurements, method);

        Assert.False(outcome.IsAccepted);
        Assert.Equal("method.uncertainty.repeatability_by_wavelength_percent", Assert.Single(outcome.Violations).Field);
    }

    [Fact]
    public void Evaluate_HazemeterAmongSpectra_AveragesWhatBothHave()
    {
        SpecimensOutcome outcome = Evaluate([WireExamples.Normalised(0.9), WireExamples.Hazemeter()], WireExamples.Method());

        // By hand: 90 % from the spectrum, 92/100 from the hazemeter; no colour from the latter.
        Assert.Empty(outcome.Violations);
        Assert.Equal(91, Mean(outcome, "luminous_transmittance").Mean, 1e-9);
        Assert.DoesNotContain(outcome.Response!.Means, mean => mean.Measurand == "tristimulus_x");
    }

    [Fact]
    public void Evaluate_ThicknessMissingInOne_IsNamedAtItsPlace()
    {
        Measurement[] measurements = [WireExamples.Normalised(0.84), WireExamples.Normalised(0.86)];
        measurements[0].Conditions.ThicknessUm = 40;
        Method method = WireExamples.Method();
        method.ReferenceThickness = new ReferenceThickness { ThicknessUm = 50, Resin = "pet" };

        SpecimensOutcome outcome = Evaluate(measurements, method);

        Assert.Equal("measurements[1].conditions.thickness_um", Assert.Single(outcome.Violations).Field);
    }

    [Fact]
    public void Evaluate_Cancelled_Stops()
    {
        using var cancellation = new CancellationTokenSource();
        cancellation.Cancel();

        Assert.Throws<OperationCanceledException>(() => SpecimensEvaluator.Evaluate(
            [WireExamples.Normalised()], MethodChoice.Given(WireExamples.Method()), WireExamples.Clock, cancellationToken: cancellation.Token));
    }

    private static SpecimensOutcome Evaluate(Measurement[] measurements, Method method) =>
        SpecimensEvaluator.Evaluate(measurements, MethodChoice.Given(method), WireExamples.Clock, cancellationToken: TestContext.Current.CancellationToken);

    private static SpecimenMean Mean(SpecimensOutcome outcome, string measurand) =>
        outcome.Response!.Means.Single(mean => mean.Measurand == measurand);

    private static Measurement Every5Nm(double total)
    {
        Measurement measurement = WireExamples.Normalised();
        NormalisedScans scans = measurement.Scans.Normalised;
        scans.Grid.Regular = new RegularGrid { StartNm = 360, StepNm = 5, Count = 85 };
        scans.TotalTransmittance.Clear();
        scans.TotalTransmittance.Add(Enumerable.Repeat(total, 85));
        scans.DiffuseTransmittance.Clear();
        scans.DiffuseTransmittance.Add(Enumerable.Repeat(0.018, 85));
        return measurement;
    }
}
