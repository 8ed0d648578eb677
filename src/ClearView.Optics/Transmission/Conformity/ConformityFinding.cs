namespace ClearView.Optics.Transmission.Conformity;

/// <summary>One requirement of a standard held against the record.</summary>
/// <param name="Clause">Standard and clause, by its heading.</param>
/// <param name="Requirement">What it asks.</param>
/// <param name="Outcome">Whether the record meets it.</param>
/// <param name="Reason">The recorded figure, or that there is none.</param>
public sealed record ConformityFinding(string Clause, string Requirement, ConformityOutcome Outcome, string Reason);
