using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Evaluations;
using ClearView.Quality.Descriptive;

namespace ClearView.Quality.Specifications;

/// <summary>Holds a reading against a specification.</summary>
public static class Judge
{
    /// <summary>Judges a reading. What is missing leads to "not decided" with the reason, never to an exception.</summary>
    /// <param name="reading">The reading.</param>
    /// <param name="specification">The specification, of one version.</param>
    /// <param name="rule">The decision rule.</param>
    public static Judgement Of(JudgedReading reading, Specification specification, DecisionRule rule)
    {
        ArgumentNullException.ThrowIfNull(reading);
        ArgumentNullException.ThrowIfNull(specification);
        ArgumentNullException.ThrowIfNull(rule);
        ImmutableArray<LimitJudgement> limits = [.. specification.Limits.Select(limit => Of(Find(reading, limit), limit, rule))];
        ImmutableArray<string> obstacles = [.. Obstacles(reading, specification)];
        return new Judgement(
            specification,
            rule,
            obstacles.IsEmpty ? Overall(limits) : Verdict.NotDecided,
            limits,
            [.. obstacles, .. limits.Where(limit => limit.Verdict != Verdict.Conformity).Select(limit => limit.Reason)]);
    }

    /// <summary>Judges one value against one limit.</summary>
    /// <param name="value">The value; <see langword="null"/> where there is none.</param>
    /// <param name="limit">The limit.</param>
    /// <param name="rule">The decision rule.</param>
    public static LimitJudgement Of(MeasuredQuantity? value, SpecificationLimit limit, DecisionRule rule)
    {
        ArgumentNullException.ThrowIfNull(limit);
        ArgumentNullException.ThrowIfNull(rule);
        if (value is null)
        {
            return new LimitJudgement(limit, Verdict.NotDecided, ReasonInWords.Missing(limit));
        }

        if (!double.IsFinite(value.Value) || value.StandardUncertainty is < 0 or double.NaN || !(value.DegreesOfFreedom > 0) || !(value.CoverageFactor > 0))
        {
            return new LimitJudgement(limit, Verdict.NotDecided, $"{MeasurandInWords.Name(limit.Measurand)}: the value or its uncertainty is not usable") { Value = value };
        }

        double distance = Math.Min(value.Value - limit.Lower ?? double.PositiveInfinity, limit.Upper - value.Value ?? double.PositiveInfinity);
        Verdict verdict = Decide(value, limit, rule, distance);
        double? probability = value.StandardUncertainty is { } u
            ? ConformityProbability.Of(value.Value, u, value.DegreesOfFreedom, limit.Lower, limit.Upper)
            : null;
        return new LimitJudgement(limit, verdict, ReasonInWords.Of(value, limit, rule, verdict))
        {
            Value = value,
            DistanceToLimit = distance,
            DistanceInExpandedUncertainties = value.ExpandedUncertainty is > 0 ? distance / value.ExpandedUncertainty : null,
            ProbabilityOfConformity = probability,
            ConsumersRisk = verdict is Verdict.NonConformity ? null : 1 - probability,
            ProducersRisk = verdict is Verdict.Conformity ? null : probability,
        };
    }

    private static Verdict Decide(MeasuredQuantity value, SpecificationLimit limit, DecisionRule rule, double distance)
    {
        if (rule.GuardBandFactor is not { } factor)
        {
            return distance >= 0 ? Verdict.Conformity : Verdict.NonConformity;
        }

        if (value.ExpandedUncertainty is not { } expanded)
        {
            return Verdict.NotDecided;
        }

        // Compared as limit ± g, as one writes the acceptance interval down, not through the rounded distance.
        double guard = factor * expanded;
        if (value.Value > limit.Upper + guard || value.Value < limit.Lower - guard)
        {
            return Verdict.NonConformity;
        }

        return value.Value > limit.Upper - guard || value.Value < limit.Lower + guard ? Verdict.NeitherProven : Verdict.Conformity;
    }

    private static Verdict Overall(ImmutableArray<LimitJudgement> limits)
    {
        bool Any(Verdict verdict) => limits.Any(limit => limit.Verdict == verdict);
        return Any(Verdict.NonConformity) ? Verdict.NonConformity
            : Any(Verdict.NotDecided) ? Verdict.NotDecided
            : Any(Verdict.NeitherProven) ? Verdict.NeitherProven
            : Verdict.Conformity;
    }

    private static IEnumerable<string> Obstacles(JudgedReading reading, Specification specification)
    {
        if (reading.MethodName != specification.MethodName || reading.MethodVersion != specification.MethodVersion)
        {
            yield return FormattableString.Invariant(
                $"evaluated under method {reading.MethodName} version {reading.MethodVersion}, specified under {specification.MethodName} version {specification.MethodVersion}");
        }

        if (reading.SpecimenCount < specification.RequiredSpecimens)
        {
            yield return FormattableString.Invariant(
                $"{reading.SpecimenCount} {(reading.SpecimenCount == 1 ? "specimen" : "specimens")} measured, {specification.RequiredSpecimens} required");
        }
    }

    private static MeasuredQuantity? Find(JudgedReading reading, SpecificationLimit limit)
    {
        MeasuredQuantity? Value(Measurand measurand) => reading.Values.FirstOrDefault(value => value.Measurand == measurand);
        if (limit.Reference is not { } reference)
        {
            return reading.Values.FirstOrDefault(value => value.Measurand == limit.Measurand && value.ReferenceName is null);
        }

        MeasuredQuantity? given = reading.Values.FirstOrDefault(value =>
            value.Measurand == limit.Measurand && value.ReferenceName == reference.Name);
        return given is null
            && Value(Measurands.CielabL) is { } l
            && Value(Measurands.CielabA) is { } a
            && Value(Measurands.CielabB) is { } b
                ? Difference(limit.Measurand, reference, new CieLab(l.Value, a.Value, b.Value))
                : given;
    }

    // From the colour alone: without uncertainty, since L*, a* and b* are correlated and their covariance is not here.
    private static MeasuredQuantity Difference(Measurand measurand, ColourReference reference, CieLab colour)
    {
        ColourShift shift = ColourShift.Between(reference.Colour, colour);
        double value = measurand.Id switch
        {
            "delta_l" => colour.L - reference.Colour.L,
            "delta_a" => colour.A - reference.Colour.A,
            "delta_b" => colour.B - reference.Colour.B,
            "delta_chroma" => shift.DeltaC,
            "delta_hue" => shift.DeltaH,
            "delta_e_ab" => ColourDifference.DeltaEab(reference.Colour, colour),
            "delta_e_2000" => ColourDifference.Ciede2000(reference.Colour, colour),
            _ => throw new ArgumentException($"{measurand.Id} is no colour difference.", nameof(measurand)),
        };
        return new MeasuredQuantity(measurand, value) { ReferenceName = reference.Name };
    }
}
