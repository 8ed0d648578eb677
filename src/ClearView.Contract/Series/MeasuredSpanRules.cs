using ClearView.Contract.Validation;
using ClearView.V1;

namespace ClearView.Contract.Series;

/// <summary>Rules for a stretch of time.</summary>
public static class MeasuredSpanRules
{
    /// <summary>Checks both ends and their order.</summary>
    /// <param name="span">The stretch as it came; <see langword="null"/> stands for all time.</param>
    /// <param name="path">Path of the field, for violations.</param>
    /// <param name="violations">Takes what is at fault.</param>
    public static void Check(MeasuredSpan? span, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(violations);
        long? from = span?.MeasuredFrom is { } first ? TimestampRules.ReadTicks(first, $"{path}.measured_from", violations) : null;
        long? before = span?.MeasuredBefore is { } last ? TimestampRules.ReadTicks(last, $"{path}.measured_before", violations) : null;
        if (from >= before)
        {
            violations.Add(
                $"{path}.measured_before",
                $"was {new DateTime(before.Value):yyyy-MM-ddTHH:mm:ss.fffffff}Z; expected later than measured_from, {new DateTime(from.Value):yyyy-MM-ddTHH:mm:ss.fffffff}Z.");
        }
    }
}
