using ClearView.Contract.Studies;
using ClearView.V1;

namespace ClearView.Contract.Tests.Studies;

/// <summary>Numbers of specimens and plans from request to answer.</summary>
public class SamplingStudyTests
{
    // z = 1.95996 (tables of the normal distribution): (1.95996 · 4)² = 61.46, by hand; t(0.975; 63) · 2/√64 = 0.4996 and
    // t(0.975; 62) · 2/√63 = 0.5037, tables.
    [Theory]
    [InlineData(true, 62u)]
    [InlineData(false, 64u)]
    public void Plan_Mean_IsTheFormula(bool known, uint expected)
    {
        PlanSamplingResponse response = Accepted(new PlanSamplingRequest { Mean = new MeanSampleSize { StandardDeviation = 2, Margin = 0.5, KnownSpread = known } });

        Assert.Equal(expected, response.SpecimenCount);
        Assert.StartsWith($"{expected} specimens give a mean within ±0.5 at 95 % confidence", response.Conclusion, StringComparison.Ordinal);
        Assert.Null(response.AcceptancePlan);
    }

    // Cohen's tables (1988), from memory; the last by hand: 2 (1.960 + 1.282)²/0.2² + 1.960²/4 = 526.3.
    [Theory]
    [InlineData(1, 0, 17u)]
    [InlineData(0.5, 80, 64u)]
    [InlineData(0.2, 90, 527u)]
    public void Plan_Difference_AgreesWithTables(double effect, double power, uint printed)
    {
        PlanSamplingResponse response = Accepted(new PlanSamplingRequest
        {
            Difference = new DifferenceSampleSize { StandardDeviation = 3, Difference = 3 * effect, PowerPercent = power },
        });

        Assert.Equal(printed, response.SpecimenCount);
        Assert.Contains($"{printed} specimens per lot", response.Conclusion, StringComparison.Ordinal);
    }

    // Julious (2004), equivalence with no true difference: n = 2σ²(z(0.95) + z(0.9))²/δ² + z²/4 per lot for 80 % power; from memory.
    // For δ = σ: 2(1.6449 + 1.2816)² + 0.676 = 17.8.
    [Fact]
    public void Plan_Equivalence_AgreesWithTheApproximation()
    {
        PlanSamplingResponse response = Accepted(new PlanSamplingRequest { Equivalence = new EquivalenceSampleSize { StandardDeviation = 2, Margin = 2 } });

        Assert.InRange(response.SpecimenCount, 17u, 19u);
        Assert.Contains("equivalent within 2", response.Conclusion, StringComparison.Ordinal);
    }

    // Montgomery, "Introduction to Statistical Quality Control", from memory: 1 % passes at 95 %, 6 % at 10 %: n = 40, k = 1.9 by a nomograph.
    [Fact]
    public void Plan_Acceptance_IsTheTextbookPlan()
    {
        PlanSamplingResponse response = Accepted(Acceptance(1, 6));

        AcceptancePlan plan = response.AcceptancePlan;
        Assert.InRange(plan.SpecimenCount, 38u, 42u);
        Assert.Equal(plan.SpecimenCount, response.SpecimenCount);
        Assert.Equal(1.9, plan.AcceptabilityConstant, 0.05);
        Assert.Equal((1.0, 6.0, 5.0, 10.0), (plan.Request.AcceptableQualityPercent, plan.Request.RejectableQualityPercent, plan.Request.ProducersRiskPercent, plan.Request.ConsumersRiskPercent));
        Assert.InRange(plan.ProducersRiskPercent, 3, 5);
        Assert.InRange(plan.ConsumersRiskPercent, 7, 10);
    }

    [Fact]
    public void Plan_Curve_FallsThroughBothQualities()
    {
        AcceptancePlan plan = Accepted(Acceptance(1, 6)).AcceptancePlan;

        Assert.Equal(60, plan.Curve.Count);
        Assert.Equal(0.01, plan.Curve[0].ShareBeyondPercent, 1e-12);
        Assert.Equal(18, plan.Curve[^1].ShareBeyondPercent, 1e-9);
        Assert.All(plan.Curve.Zip(plan.Curve.Skip(1)), step =>
        {
            Assert.True(step.First.ShareBeyondPercent < step.Second.ShareBeyondPercent);
            Assert.True(step.First.AcceptanceFraction >= step.Second.AcceptanceFraction);
        });
        Assert.Equal(100 - plan.ProducersRiskPercent, 100 * plan.Curve.Single(point => point.ShareBeyondPercent == 1).AcceptanceFraction, 1e-9);
        Assert.Equal(plan.ConsumersRiskPercent, 100 * plan.Curve.Single(point => point.ShareBeyondPercent == 6).AcceptanceFraction, 1e-9);
        Assert.True(plan.Curve[^1].AcceptanceFraction < 1e-4);
    }

    [Theory]
    [InlineData(1e-7, 99.9)]
    [InlineData(0.001, 0.01)]
    [InlineData(49.9, 99.999)]
    public void Plan_AcceptanceFarOut_KeepsTheRisks(double good, double bad)
    {
        AcceptancePlan plan = Accepted(Acceptance(good, bad)).AcceptancePlan;

        Assert.InRange(plan.ProducersRiskPercent, -1e-9, 5);
        Assert.InRange(plan.ConsumersRiskPercent, -1e-9, 10);
        Assert.True(plan.Curve[^1].ShareBeyondPercent is var last && last > bad && last < 100);
        Assert.All(plan.Curve, point => Assert.InRange(point.AcceptanceFraction, 0, 1));
    }

    [Fact]
    public void Plan_NoQuestion_IsNamed() => Assert.Equal(["mean"], Faults(new PlanSamplingRequest()));

    [Fact]
    public void Plan_EveryFieldAtFault_IsNamedAtOnce()
    {
        Assert.Equal(
            ["mean.standard_deviation", "mean.margin", "mean.confidence_percent"],
            Faults(new PlanSamplingRequest { Mean = new MeanSampleSize { StandardDeviation = double.NaN, Margin = -1, ConfidencePercent = 100 } }));
        Assert.Equal(
            ["difference.standard_deviation", "difference.difference", "difference.power_percent", "difference.confidence_percent"],
            Faults(new PlanSamplingRequest { Difference = new DifferenceSampleSize { PowerPercent = 50, ConfidencePercent = 49 } }));
        Assert.Equal(
            ["equivalence.standard_deviation", "equivalence.difference", "equivalence.power_percent", "equivalence.confidence_percent"],
            Faults(new PlanSamplingRequest { Equivalence = new EquivalenceSampleSize { Difference = -2, Margin = 2, PowerPercent = 101, ConfidencePercent = -5 } }));
        Assert.Equal(
            ["acceptance_plan.acceptable_quality_percent", "acceptance_plan.rejectable_quality_percent", "acceptance_plan.producers_risk_percent", "acceptance_plan.consumers_risk_percent"],
            Faults(new PlanSamplingRequest { AcceptancePlan = new AcceptancePlanRequest { ProducersRiskPercent = 50, ConsumersRiskPercent = double.NaN } }));
    }

    [Fact]
    public void Plan_MoreThanAMillion_IsRefused()
    {
        Assert.Equal(["mean.margin"], Faults(new PlanSamplingRequest { Mean = new MeanSampleSize { StandardDeviation = 1, Margin = 0.0001 } }));
        Assert.Equal(["difference.difference"], Faults(new PlanSamplingRequest { Difference = new DifferenceSampleSize { StandardDeviation = 1, Difference = 0.0001 } }));
        Assert.Equal(["equivalence.margin"], Faults(new PlanSamplingRequest { Equivalence = new EquivalenceSampleSize { StandardDeviation = 1, Margin = 0.0001 } }));
        Assert.Equal(["acceptance_plan.rejectable_quality_percent"], Faults(Acceptance(1, 1.001)));
    }

    private static PlanSamplingRequest Acceptance(double good, double bad) => new()
    {
        AcceptancePlan = new AcceptancePlanRequest { AcceptableQualityPercent = good, RejectableQualityPercent = bad },
    };

    private static PlanSamplingResponse Accepted(PlanSamplingRequest request)
    {
        StudyOutcome<PlanSamplingResponse> outcome = SamplingStudy.Plan(request);
        Assert.Empty(outcome.Violations);
        return outcome.Response!;
    }

    private static IEnumerable<string> Faults(PlanSamplingRequest request)
    {
        StudyOutcome<PlanSamplingResponse> outcome = SamplingStudy.Plan(request);
        Assert.False(outcome.IsAccepted);
        return outcome.Violations.Select(violation => violation.Field);
    }
}
