using System.Globalization;

using ClearView.Contract.Validation;
using ClearView.Quality.Sampling;
using ClearView.V1;

namespace ClearView.Contract.Studies;

/// <summary>Plans acceptance by variables.</summary>
internal static class AcceptancePlanner
{
    private const double DefaultProducersRiskPercent = 5;
    private const double DefaultConsumersRiskPercent = 10;
    private const double LeastSharePercent = 1e-7;

    // The two qualities are points of their own beside these.
    private const int CurvePoints = 58;
    private const double CurveFromPercent = 0.01;

    /// <summary>The plan; <see langword="null"/> when something is at fault.</summary>
    public static PlanSamplingResponse? Plan(AcceptancePlanRequest asked, string path, Violations violations)
    {
        (double good, double bad) = (asked.AcceptableQualityPercent, asked.RejectableQualityPercent);
        if (!(good >= LeastSharePercent && good < 50))
        {
            violations.Add($"{path}.acceptable_quality_percent", $"was {good}; expected {LeastSharePercent} or more and below 50 %.");
        }

        if (!(bad > good && bad < 100))
        {
            violations.Add($"{path}.rejectable_quality_percent", $"was {bad}; expected above the acceptable quality, {good} %, and below 100 %.");
        }

        double producers = violations.ReadRisk($"{path}.producers_risk_percent", asked.ProducersRiskPercent, DefaultProducersRiskPercent);
        double consumers = violations.ReadRisk($"{path}.consumers_risk_percent", asked.ConsumersRiskPercent, DefaultConsumersRiskPercent);
        if (!violations.IsEmpty)
        {
            return null;
        }

        try
        {
            return Write(VariablesPlan.For(good / 100, bad / 100, producers, consumers), new AcceptancePlanRequest
            {
                AcceptableQualityPercent = good,
                RejectableQualityPercent = bad,
                ProducersRiskPercent = 100 * producers,
                ConsumersRiskPercent = 100 * consumers,
            });
        }
        catch (ArgumentOutOfRangeException)
        {
            violations.Add(
                $"{path}.rejectable_quality_percent",
                $"was {bad}; no plan up to 100000 specimens keeps both risks so close to the acceptable quality, {good} %. Expected further from it.");
            return null;
        }
    }

    private static PlanSamplingResponse Write(VariablesPlan plan, AcceptancePlanRequest request)
    {
        double passed = plan.ProbabilityOfAcceptance(request.AcceptableQualityPercent / 100);
        double passedAmiss = plan.ProbabilityOfAcceptance(request.RejectableQualityPercent / 100);
        return new PlanSamplingResponse
        {
            SpecimenCount = (uint)plan.Specimens,
            Conclusion = string.Create(
                CultureInfo.InvariantCulture,
                $"Take {plan.Specimens} specimens and accept where the limit lies {plan.AcceptabilityConstant:0.0000} standard deviations of theirs, or more, from their mean: a lot with {request.AcceptableQualityPercent} % beyond the limit passes with {100 * passed:0.0} % probability, one with {request.RejectableQualityPercent} % with {100 * passedAmiss:0.0} %. The values of a lot are taken to be normal."),
            AcceptancePlan = new AcceptancePlan
            {
                SpecimenCount = (uint)plan.Specimens,
                AcceptabilityConstant = plan.AcceptabilityConstant,
                Request = request,
                Curve = { Curve(plan, request) },
                ProducersRiskPercent = 100 * (1 - passed),
                ConsumersRiskPercent = 100 * passedAmiss,
            },
        };
    }

    // Equally spaced by ratio, since what matters lies at small shares.
    private static IEnumerable<OperatingPoint> Curve(VariablesPlan plan, AcceptancePlanRequest request)
    {
        double from = Math.Min(CurveFromPercent, request.AcceptableQualityPercent / 10);
        double to = Math.Min(3 * request.RejectableQualityPercent, (100 + request.RejectableQualityPercent) / 2);
        return Enumerable.Range(0, CurvePoints)
            .Select(i => from * Math.Pow(to / from, i / (CurvePoints - 1.0)))
            .Append(request.AcceptableQualityPercent)
            .Append(request.RejectableQualityPercent)
            .Distinct()
            .Order()
            .Select(share => new OperatingPoint
            {
                ShareBeyondPercent = share,
                AcceptanceFraction = plan.ProbabilityOfAcceptance(share / 100),
            });
    }
}
