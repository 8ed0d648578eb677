using ClearView.V1;

namespace ClearView.Plotting.Decisions;

/// <summary>Verdicts in words.</summary>
internal static class OutcomeWords
{
    public static string Of(VerdictOutcome outcome) => outcome switch
    {
        VerdictOutcome.Conformity => "conformity",
        VerdictOutcome.NonConformity => "non-conformity",
        VerdictOutcome.NeitherProven => "neither proven",
        _ => "not decided",
    };
}
