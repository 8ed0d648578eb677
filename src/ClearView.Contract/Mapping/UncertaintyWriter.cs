using ClearView.Optics.Evaluations;
using ClearView.Optics.Uncertainty;

namespace ClearView.Contract.Mapping;

/// <summary>Writes uncertainties to the wire.</summary>
internal static class UncertaintyWriter
{
    public static V1.Uncertainty? Write(Measurand measurand, UncertaintyReport report)
    {
        if (report.Linear(measurand) is not { } linear)
        {
            return null;
        }

        V1.Uncertainty wire = Write(linear);
        if (report.Trials(measurand) is { } trials)
        {
            wire.MonteCarlo = new V1.MonteCarloInterval
            {
                Mean = trials.Mean,
                StandardUncertainty = trials.StandardUncertainty,
                IntervalLow = trials.IntervalLow,
                IntervalHigh = trials.IntervalHigh,
                TrialCount = trials.Trials,
                Stable = trials.IsStable,
                ConfirmsLinear = report.Confirms(measurand),
            };
        }

        return wire;
    }

    public static V1.Uncertainty Write(MeasurandUncertainty linear)
    {
        var wire = new V1.Uncertainty
        {
            StandardUncertainty = linear.StandardUncertainty,
            ExpandedUncertainty = linear.ExpandedUncertainty,
            CoverageFactor = linear.CoverageFactor,
            CoveragePercent = 100 * linear.CoverageProbability,
            Budget = { linear.Budget.Select(Write) },
        };
        if (double.IsFinite(linear.EffectiveDegreesOfFreedom))
        {
            wire.EffectiveDegreesOfFreedom = linear.EffectiveDegreesOfFreedom;
        }

        return wire;
    }

    private static V1.Contribution Write(Contribution contribution) => new()
    {
        Source = contribution.Source.Name,
        StandardUncertainty = contribution.StandardUncertainty,
        VarianceFraction = contribution.Share,
        Correlation = contribution.Source.Correlation == SourceCorrelation.PerWavelength ? "per wavelength" : "whole spectrum",
    };
}
