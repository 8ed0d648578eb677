using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

using ClearView.V1;

namespace ClearView.Contract;

/// <summary>What came of a request to evaluate: an evaluation, or why there is none.</summary>
public sealed class EvaluationOutcome
{
    private EvaluationOutcome(Evaluation? evaluation, ImmutableArray<FieldViolation> violations)
    {
        Evaluation = evaluation;
        Violations = violations;
    }

    /// <summary>The evaluation, with its spectra; <see langword="null"/> when there are violations.</summary>
    public Evaluation? Evaluation { get; }

    /// <summary>Every field at fault; empty when there is an evaluation.</summary>
    public ImmutableArray<FieldViolation> Violations { get; }

    /// <summary>Whether there is an evaluation.</summary>
    [MemberNotNullWhen(true, nameof(Evaluation))]
    public bool IsAccepted => Evaluation is not null;

    internal static EvaluationOutcome Accepted(Evaluation evaluation) => new(evaluation, []);

    internal static EvaluationOutcome Refused(ImmutableArray<FieldViolation> violations) => new(null, violations);
}
