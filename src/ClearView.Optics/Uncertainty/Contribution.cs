namespace ClearView.Optics.Uncertainty;

/// <summary>What one source contributes to a measurand's standard uncertainty (JCGM 100, 5.1 and annex H, budget table).</summary>
/// <param name="Source">The source.</param>
/// <param name="StandardUncertainty">|∂y/∂x|·u(x) in the measurand's unit; squares add up to the square of the total.</param>
/// <param name="Share">Share of the variance, 0-1.</param>
public readonly record struct Contribution(UncertaintySource Source, double StandardUncertainty, double Share);
