using System.Collections.Immutable;

using ClearView.Quality.Specifications;

namespace ClearView.Contract.Decisions;

/// <summary>Writes verdicts to the wire.</summary>
internal static class VerdictWriter
{
    private const string Caution =
        "A verdict on measured values, no release: release of food or pharma packaging follows the applicable pharmacopoeia, local codes and qualified staff.";

    /// <summary>Writes a judgement.</summary>
    /// <param name="specification">The specification that it was made under.</param>
    /// <param name="judgement">The judgement.</param>
    /// <param name="specimens">Number of specimens that it rests on.</param>
    /// <param name="obstacles">What else stands in the way, in words; any makes it "not decided".</param>
    public static V1.Verdict Write(ResolvedSpecification specification, Judgement judgement, int specimens, ImmutableArray<string> obstacles) => new()
    {
        SpecificationName = specification.Name?.Clone(),
        DecisionRule = specification.Wire.DecisionRule.Clone(),
        Outcome = obstacles.IsEmpty ? Outcome(judgement.Verdict) : V1.VerdictOutcome.NotDecided,
        Limits = { judgement.Limits.Zip(specification.Wire.Limits, Write) },
        Reasons = { obstacles, judgement.Reasons },
        SpecimenCount = (uint)specimens,
        Caution = Caution,
    };

    /// <summary>An outcome on the wire.</summary>
    public static V1.VerdictOutcome Outcome(Verdict verdict) => verdict switch
    {
        Verdict.Conformity => V1.VerdictOutcome.Conformity,
        Verdict.NonConformity => V1.VerdictOutcome.NonConformity,
        Verdict.NeitherProven => V1.VerdictOutcome.NeitherProven,
        Verdict.NotDecided => V1.VerdictOutcome.NotDecided,
        _ => throw new ArgumentOutOfRangeException(nameof(verdict), verdict, "expected a verdict."),
    };

    private static V1.LimitVerdict Write(LimitJudgement judgement, V1.SpecificationLimit limit)
    {
        var wire = new V1.LimitVerdict
        {
            Limit = limit.Clone(),
            Name = judgement.Limit.Measurand.Name,
            Unit = judgement.Limit.Measurand.Unit,
            Outcome = Outcome(judgement.Verdict),
            Reason = judgement.Reason,
        };
        Set(judgement.Value?.Value, value => wire.Value = value);
        Set(judgement.Value?.StandardUncertainty, value => wire.StandardUncertainty = value);
        Set(judgement.Value?.ExpandedUncertainty, value => wire.ExpandedUncertainty = value);
        Set(judgement.DistanceToLimit, value => wire.DistanceToLimit = value);
        Set(judgement.DistanceInExpandedUncertainties, value => wire.DistanceInExpandedUncertainties = value);
        Set(judgement.ProbabilityOfConformity, value => wire.ConformityProbabilityFraction = value);
        Set(judgement.ConsumersRisk, value => wire.ConsumersRiskFraction = value);
        Set(judgement.ProducersRisk, value => wire.ProducersRiskFraction = value);
        return wire;
    }

    private static void Set(double? value, Action<double> set)
    {
        if (value is { } given && double.IsFinite(given))
        {
            set(given);
        }
    }
}
