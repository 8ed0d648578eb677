using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

using ClearView.V1;

namespace ClearView.Contract;

/// <summary>What came of a request to evaluate several specimens: evaluations and summaries, or why there are none.</summary>
public sealed class SpecimensOutcome
{
    private SpecimensOutcome(EvaluateSpecimensResponse? response, ImmutableArray<FieldViolation> violations)
    {
        Response = response;
        Violations = violations;
    }

    /// <summary>Evaluations, with their spectra, means and wall summaries; <see langword="null"/> when there are violations.</summary>
    public EvaluateSpecimensResponse? Response { get; }

    /// <summary>Every field at fault; empty when there is a response.</summary>
    public ImmutableArray<FieldViolation> Violations { get; }

    /// <summary>Whether there is a response.</summary>
    [MemberNotNullWhen(true, nameof(Response))]
    public bool IsAccepted => Response is not null;

    internal static SpecimensOutcome Accepted(EvaluateSpecimensResponse response) => new(response, []);

    internal static SpecimensOutcome Refused(ImmutableArray<FieldViolation> violations) => new(null, violations);
}
