using ClearView.Contract.Studies;
using ClearView.V1;

namespace ClearView.Console.Commands;

/// <summary>Says why something that was computed here is refused, as the server would.</summary>
internal static class Refusal
{
    /// <summary>The answer of a study.</summary>
    /// <exception cref="UsageException">There is none.</exception>
    public static T Answer<T>(StudyOutcome<T> outcome)
        where T : class => outcome.Response ?? throw Of(outcome.Violations, outcome.FailedPrecondition);

    /// <summary>Why there is no answer.</summary>
    /// <param name="violations">Every field at fault.</param>
    /// <param name="precondition">What the readings lack, where it is not the fields.</param>
    public static UsageException Of(IEnumerable<FieldViolation> violations, string? precondition = null) => new(precondition is not null
        ? precondition
        : "this cannot be computed as it was asked:" + string.Concat(violations.Select(one => $"{Environment.NewLine}  {one.Field}: {one.Description}")));
}
