using ClearView.V1;

namespace ClearView.Plotting.Tests.Decisions;

/// <summary>Verdicts on invented specimens.</summary>
internal static class SampleVerdicts
{
    public static Verdict Of(params LimitVerdict[] limits)
    {
        var verdict = new Verdict
        {
            SpecificationName = new SpecificationName { Name = "clear-40", Version = 2 },
            DecisionRule = new DecisionRule { GuardBand = new GuardBand { Factor = 1 } },
            Outcome = VerdictOutcome.NonConformity,
            SpecimenCount = 5,
            Caution = "The verdict holds for the specimens measured, under the method of the specification.",
        };
        verdict.Limits.Add(limits);
        verdict.Reasons.Add(limits.Where(limit => limit.Reason.Length > 0).Select(limit => limit.Reason));
        return verdict;
    }

    public static Verdict Certificate() => Of(
        Limit("Haze", "%", null, 3, null, 2.41, 0.12, VerdictOutcome.Conformity),
        Limit("Luminous transmittance", "%", 90, null, null, 90.1, 0.3, VerdictOutcome.NeitherProven),
        Limit("Colour coordinate b*", "", -1, 1, 0, 3.9, 0.2, VerdictOutcome.NonConformity),
        Limit("Yellowness index E313", "", null, 2, 1, 2.3, 0.25, VerdictOutcome.NonConformity),
        Limit("Dominant wavelength of the transmitted light", "nm", 560, 580, 570, null, 0, VerdictOutcome.NotDecided),
        Limit("Hue angle", "°", 80, 100, null, 92, 0, VerdictOutcome.Conformity));

    public static LimitVerdict Limit(
        string name, string unit, double? lower, double? upper, double? target, double? value, double expanded, VerdictOutcome outcome)
    {
        var limit = new SpecificationLimit { Measurand = "haze" };
        if (lower is { } low)
        {
            limit.Lower = low;
        }

        if (upper is { } high)
        {
            limit.Upper = high;
        }

        if (target is { } aim)
        {
            limit.Target = aim;
        }

        var verdict = new LimitVerdict { Limit = limit, Name = name, Unit = unit, Outcome = outcome };
        if (value is { } number)
        {
            verdict.Value = number;
        }

        if (expanded > 0)
        {
            verdict.ExpandedUncertainty = expanded;
        }

        if (outcome != VerdictOutcome.Conformity)
        {
            verdict.Reason = $"{name}: the reason in a sentence with its figures.";
        }

        return verdict;
    }
}
