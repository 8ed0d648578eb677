namespace ClearView.Optics.Evaluations;

/// <summary>One measurand's value, with everything that defines it.</summary>
/// <param name="Measurand">The measurand.</param>
/// <param name="Value">The value in the measurand's unit, finite, unrounded.</param>
/// <param name="Basis">What it rests on.</param>
public sealed record MeasuredValue(Measurand Measurand, double Value, MeasuredBasis Basis);
