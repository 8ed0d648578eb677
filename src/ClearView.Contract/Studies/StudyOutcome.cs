using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

using ClearView.V1;

namespace ClearView.Contract.Studies;

/// <summary>What came of a study: an answer, every field at fault, or what the readings lack.</summary>
/// <typeparam name="TResponse">The answer on the wire.</typeparam>
public sealed class StudyOutcome<TResponse>
    where TResponse : class
{
    private StudyOutcome(TResponse? response, ImmutableArray<FieldViolation> violations, string? failedPrecondition)
    {
        Response = response;
        Violations = violations;
        FailedPrecondition = failedPrecondition;
    }

    /// <summary>The answer; <see langword="null"/> when there is none.</summary>
    public TResponse? Response { get; }

    /// <summary>Every field at fault; empty when the request was right.</summary>
    public ImmutableArray<FieldViolation> Violations { get; }

    /// <summary>What the readings lack for an answer, in words; <see langword="null"/> when nothing.</summary>
    public string? FailedPrecondition { get; }

    /// <summary>Whether there is an answer.</summary>
    [MemberNotNullWhen(true, nameof(Response))]
    public bool IsAccepted => Response is not null;

    internal static StudyOutcome<TResponse> Accepted(TResponse response) => new(response, [], null);

    internal static StudyOutcome<TResponse> Refused(ImmutableArray<FieldViolation> violations) => new(null, violations, null);

    internal static StudyOutcome<TResponse> Lacking(string precondition) => new(null, [], precondition);
}
