using System.Collections.Immutable;

using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;
using ClearView.Quality.Lots;

namespace ClearView.Contract.Studies;

/// <summary>Reads what a comparison of lots is asked for.</summary>
internal static class LotOptionsReader
{
    /// <summary>The options of each measurand, in their order; meaningful only where no violation was added.</summary>
    public static ImmutableArray<LotComparisonOptions> Read(
        V1.LotComparisonOptions? options, ImmutableArray<Measurand> measurands, Violations violations)
    {
        options ??= new V1.LotComparisonOptions();
        double confidence = violations.ReadLevel("options.confidence_percent", options.ConfidencePercent, PercentRules.DefaultConfidence);
        double power = violations.ReadLevel("options.power_percent", options.PowerPercent, PercentRules.DefaultPower);
        var margins = new Dictionary<string, V1.MeasurandMargin>(StringComparer.Ordinal);
        for (int i = 0; i < options.Margins.Count; i++)
        {
            V1.MeasurandMargin margin = options.Margins[i];
            string path = $"options.margins[{i}]";
            if (!measurands.Any(measurand => measurand.Id == margin.Measurand))
            {
                violations.Add($"{path}.measurand", $"was \"{margin.Measurand}\"; expected one of those compared: {string.Join(", ", measurands)}.");
            }
            else if (!margins.TryAdd(margin.Measurand, margin))
            {
                violations.Add($"{path}.measurand", $"was {margin.Measurand} again; expected each measurand once.");
            }

            violations.RequirePositiveFigure($"{path}.margin", margin.Margin);
            if (margin.HasInstrumentExpandedUncertainty)
            {
                violations.RequirePositiveFigure($"{path}.instrument_expanded_uncertainty", margin.InstrumentExpandedUncertainty);
            }
        }

        return violations.IsEmpty
            ?
            [
                .. measurands.Select(measurand => margins.GetValueOrDefault(measurand.Id)).Select(margin => new LotComparisonOptions
                {
                    Confidence = confidence,
                    Power = power,
                    EquivalenceMargin = margin?.Margin,
                    ExpandedUncertainty = margin is { HasInstrumentExpandedUncertainty: true } ? margin.InstrumentExpandedUncertainty : null,
                }),
            ]
            : [];
    }
}
