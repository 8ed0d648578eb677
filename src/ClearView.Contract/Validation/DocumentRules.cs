namespace ClearView.Contract.Validation;

/// <summary>Rules that every document under a name shares, whatever it holds.</summary>
public static class DocumentRules
{
    private const int LongestDescription = 200;

    /// <summary>Checks the fields name, description and stored_by of a request to store.</summary>
    /// <param name="name">The name as it came.</param>
    /// <param name="description">What it is for.</param>
    /// <param name="storedBy">Who stores it.</param>
    /// <param name="violations">Takes what is at fault.</param>
    public static void Check(string name, string description, string storedBy, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(violations);
        MethodNameRules.Check(name, "name", violations);
        violations.RequireText("description", description, LongestDescription);
        violations.RequireText("stored_by", storedBy);
    }
}
