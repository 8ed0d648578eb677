using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

using ClearView.V1;

namespace ClearView.Contract.Decisions;

/// <summary>What came of a request to judge specimens: the answer, or why there is none.</summary>
public sealed class JudgementOutcome
{
    private JudgementOutcome(JudgeSpecimensResponse? response, ImmutableArray<FieldViolation> violations)
    {
        Response = response;
        Violations = violations;
    }

    /// <summary>The answer; <see langword="null"/> when there are violations.</summary>
    public JudgeSpecimensResponse? Response { get; }

    /// <summary>Every field at fault; empty when there is an answer.</summary>
    public ImmutableArray<FieldViolation> Violations { get; }

    /// <summary>Whether there is an answer.</summary>
    [MemberNotNullWhen(true, nameof(Response))]
    public bool IsAccepted => Response is not null;

    internal static JudgementOutcome Accepted(JudgeSpecimensResponse response) => new(response, []);

    internal static JudgementOutcome Refused(ImmutableArray<FieldViolation> violations) => new(null, violations);
}
