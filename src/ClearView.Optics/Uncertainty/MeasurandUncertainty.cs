using System.Collections.Immutable;

using ClearView.Optics.Evaluations;

namespace ClearView.Optics.Uncertainty;

/// <summary>The uncertainty of one measurand's value by the law of propagation (JCGM 100).</summary>
/// <param name="Measurand">The measurand.</param>
/// <param name="Value">Its value.</param>
/// <param name="StandardUncertainty">Combined standard uncertainty, in the measurand's unit.</param>
/// <param name="EffectiveDegreesOfFreedom">By the Welch-Satterthwaite formula (JCGM 100, G.4); may be infinite.</param>
/// <param name="CoverageProbability">Coverage probability, 0-1.</param>
/// <param name="CoverageFactor">k: quantile of the t distribution for the coverage probability.</param>
/// <param name="Budget">What each source contributes, in the order of the sources.</param>
public sealed record MeasurandUncertainty(
    Measurand Measurand,
    double Value,
    double StandardUncertainty,
    double EffectiveDegreesOfFreedom,
    double CoverageProbability,
    double CoverageFactor,
    ImmutableArray<Contribution> Budget)
{
    /// <summary>U = k·u, in the measurand's unit.</summary>
    public double ExpandedUncertainty => CoverageFactor * StandardUncertainty;

    /// <summary>The uncertainty of a value that follows from this one alone (JCGM 100, 5.1.2 with one input).</summary>
    /// <param name="value">The value.</param>
    /// <param name="derivative">Its derivative with respect to this one.</param>
    internal MeasurandUncertainty Through(double value, double derivative)
    {
        double factor = Math.Abs(derivative);
        return this with
        {
            Value = value,
            StandardUncertainty = factor * StandardUncertainty,
            Budget = [.. Budget.Select(part => part with { StandardUncertainty = factor * part.StandardUncertainty })],
        };
    }
}
