using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Conformity;
using ClearView.Optics.Transmission.Scattering;

using Google.Protobuf.Collections;

namespace ClearView.Contract.Mapping;

/// <summary>Writes what an evaluation finds beside its values.</summary>
internal static class FindingsWriter
{
    // Common practice, no source: parts of a colour difference below this are not worth a word.
    private const double SmallestNamedDifference = 0.1;

    public static V1.LightBarrier? LightBarrier(LightBarrierScreen? screen) => screen is { } s
        ? new V1.LightBarrier
        {
            MaximumPercent = 100 * s.MaximumFraction,
            MaximumAtNm = s.MaximumAtNm,
            LimitPercent = 100 * s.LimitFraction,
            WithinLimit = s.IsWithinLimit,
            Caution = LightBarrierScreen.Caution,
        }
        : null;

    public static V1.ScreenColour? ScreenColour(TransmittedColour? colour)
    {
        if (colour is null)
        {
            return null;
        }

        var screen = Optics.Colorimetry.ScreenColour.From(colour.Tristimulus, colour.White);
        return new V1.ScreenColour { Hex = screen.Hex, InGamut = screen.IsInGamut };
    }

    public static void AddDifferenceWords(Evaluation evaluation, RepeatedField<string> wire)
    {
        if (evaluation is { Colour: { } colour, Method.ReferenceColour: { } reference })
        {
            wire.AddRange(ColourShift.Between(reference, colour.Lab).Words(SmallestNamedDifference));
        }
    }

    public static V1.ScatteringFit? Scattering(ScatteringExponent? exponent) => exponent is { } fit
        ? new V1.ScatteringFit
        {
            Exponent = fit.Exponent,
            ExponentStandardError = fit.StandardError,
            ExplainedFraction = fit.DeterminationCoefficient,
            Suggestion = fit.Suggestion,
        }
        : null;

    public static void AddConformity(Evaluation evaluation, V1.Conditions conditions, RepeatedField<V1.ConformityFinding> wire)
    {
        ImmutableArray<ConformityFinding> findings =
            ConformityStatement.Of(evaluation.Method.HazeStandard, evaluation.Method.Luminous, evaluation.Haze, Read(conditions));
        wire.Capacity = findings.Length;
        foreach (ConformityFinding finding in findings)
        {
            wire.Add(new V1.ConformityFinding
            {
                Clause = finding.Clause,
                Requirement = finding.Requirement,
                Outcome = (V1.ConformityOutcome)finding.Outcome,
                Reason = finding.Reason,
            });
        }
    }

    private static RecordedConditions Read(V1.Conditions conditions) => new()
    {
        TemperatureC = conditions.HasConditioningTemperatureC ? conditions.ConditioningTemperatureC : null,
        HumidityPercent = conditions.HasConditioningHumidityPercent ? conditions.ConditioningHumidityPercent : null,
        ConditioningHours = conditions.HasConditioningHours ? conditions.ConditioningHours : null,
        SpecimenCount = conditions.HasSpecimenCount ? (int)conditions.SpecimenCount : null,
        SpecimenExtentMm = conditions.HasSpecimenExtentMm ? conditions.SpecimenExtentMm : null,
        PortDiameterMm = conditions.HasPortDiameterMm ? conditions.PortDiameterMm : null,
        PortAreaPercent = conditions.HasPortAreaPercent ? conditions.PortAreaPercent : null,
    };
}
