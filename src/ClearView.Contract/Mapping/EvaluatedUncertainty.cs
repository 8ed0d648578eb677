using ClearView.Optics.Uncertainty;

namespace ClearView.Contract.Mapping;

/// <summary>The uncertainty of an evaluation, and of what was scaled from it.</summary>
internal sealed record EvaluatedUncertainty(UncertaintyReport Measured, UncertaintyReport? AtReferenceThickness);
