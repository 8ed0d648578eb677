namespace ClearView.Contract.Validation;

/// <summary>Rules for the identifier by which a client matches the answers of a stream.</summary>
public static class CorrelationRules
{
    private const int LongestIdentifier = 100;

    /// <summary>Checks a correlation identifier: anything up to 100 characters.</summary>
    /// <param name="correlationId">The identifier; it may be empty.</param>
    /// <param name="violations">Takes what is at fault, under "correlation_id".</param>
    public static void Check(string correlationId, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(correlationId);
        ArgumentNullException.ThrowIfNull(violations);
        if (correlationId.Length > LongestIdentifier)
        {
            violations.Add("correlation_id", $"had {correlationId.Length} characters; expected up to {LongestIdentifier}.");
        }
    }
}
