using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

/// <summary>An acceptance plan.</summary>
internal static class SamplePlans
{
    public static AcceptancePlan Plan(double acceptable = 1, double rejectable = 6)
    {
        var plan = new AcceptancePlan
        {
            SpecimenCount = 42,
            AcceptabilityConstant = 1.907,
            Request = new AcceptancePlanRequest { AcceptableQualityPercent = acceptable, RejectableQualityPercent = rejectable, ProducersRiskPercent = 5, ConsumersRiskPercent = 10 },
            ProducersRiskPercent = 4.8,
            ConsumersRiskPercent = 9.7,
        };
        // A logistic curve through both points: close enough to draw.
        double slope = (Logit(0.952) - Logit(0.097)) / (Logit(acceptable / 100) - Logit(rejectable / 100));
        for (double share = acceptable / 20; share < 99; share *= 1.08)
        {
            plan.Curve.Add(new OperatingPoint
            {
                ShareBeyondPercent = share,
                AcceptanceFraction = 1 / (1 + Math.Exp(-(Logit(0.952) + (slope * (Logit(share / 100) - Logit(acceptable / 100)))))),
            });
        }

        return plan;
    }

    private static double Logit(double fraction) => Math.Log(fraction / (1 - fraction));
}
