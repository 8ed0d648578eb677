using System.Collections.Immutable;

using ClearView.Contract.Validation;
using ClearView.Optics.Colorimetry;
using ClearView.Quality.Specifications;

namespace ClearView.Contract.Decisions;

/// <summary>Specifications on the wire to specifications that can decide.</summary>
public static class SpecificationReader
{
    private const int MostLimits = 100;
    private const int MostSpecimens = SpecimensEvaluator.MostMeasurements;
    private const int LongestProduct = 100;

    /// <summary>Checks a specification and puts it together with its method.</summary>
    /// <param name="specification">The specification as it came or is stored; <see langword="null"/> is a violation. References have their colour.</param>
    /// <param name="name">Name and version that it is stored under; <see langword="null"/> where a request brought it.</param>
    /// <param name="method">The method of its name, with its version; <see langword="null"/> where there is none, which is told elsewhere.</param>
    /// <param name="path">Path of the field, for violations.</param>
    /// <param name="violations">Takes what is at fault.</param>
    /// <returns>The specification; <see langword="null"/> when anything is at fault.</returns>
    public static ResolvedSpecification? Read(
        V1.Specification? specification, V1.SpecificationName? name, V1.NamedMethod? method, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(violations);
        if (specification is null)
        {
            violations.Add(path, $"was missing; expected a specification.");
            return null;
        }

        var found = new Violations();
        CheckForm(specification, path, found);
        DecisionRule? rule = ReadRule(specification.DecisionRule, $"{path}.decision_rule", found);
        SpecificationCheck check = SpecificationCheck.Of(Draft(specification, name, method));
        foreach (FieldError error in check.Errors.Where(error => error.Field != "method_name"))
        {
            found.Add($"{path}.{error.Field}", $"{error.Message}");
        }

        V1.CielabColour? reference = ReferenceOf(specification, method, path, found);
        violations.AddAll(found);
        return found.IsEmpty && check.IsValid && rule is not null && method is not null
            ? new ResolvedSpecification(WithVersion(specification, method), name, check.Specification, rule, WithReference(method.Method, reference))
            : null;
    }

    private static void CheckForm(V1.Specification specification, string path, Violations violations)
    {
        violations.CheckText($"{path}.product", specification.Product, LongestProduct);
        violations.RequireNamed($"{path}.product_kind", specification.ProductKind);
        MethodNameRules.Check(specification.MethodName, $"{path}.method_name", violations);
        if (specification.RequiredSpecimenCount > MostSpecimens)
        {
            violations.Add($"{path}.required_specimen_count", $"was {specification.RequiredSpecimenCount}; expected 1 to {MostSpecimens}.");
        }

        if (specification.Limits.Count > MostLimits)
        {
            violations.Add($"{path}.limits", $"had {specification.Limits.Count} limits; expected 1 to {MostLimits}.");
        }

        for (int i = 0; i < specification.Limits.Count; i++)
        {
            if (specification.Limits[i].ReferenceName is { } name)
            {
                MethodNameRules.Check(name.Name, $"{path}.limits[{i}].reference_name.name", violations);
            }
        }
    }

    private static DecisionRule? ReadRule(V1.DecisionRule? rule, string path, Violations violations)
    {
        switch (rule?.RuleCase)
        {
            case V1.DecisionRule.RuleOneofCase.SimpleAcceptance:
                return DecisionRule.SimpleAcceptance;
            case V1.DecisionRule.RuleOneofCase.GuardBand when rule.GuardBand.Factor is > 0 and <= 10:
                return DecisionRule.Guarded(rule.GuardBand.Factor);
            case V1.DecisionRule.RuleOneofCase.GuardBand:
                violations.Add($"{path}.guard_band.factor", $"was {rule.GuardBand.Factor}; expected above 0 and at most 10 (times the expanded uncertainty).");
                return null;
            default:
                violations.Add(path, $"was missing; expected simple_acceptance or guard_band.");
                return null;
        }
    }

    private static SpecificationDraft Draft(V1.Specification specification, V1.SpecificationName? name, V1.NamedMethod? method) => new()
    {
        Product = specification.Product,
        Version = Math.Max(1, (int)(name?.Version ?? 1)),
        MethodName = specification.MethodName?.Name ?? "",
        MethodVersion = Math.Max(1, (int)(method?.MethodName.Version ?? 1)),
        RequiredSpecimens = (int)Math.Min(specification.RequiredSpecimenCount, int.MaxValue),
        Limits = [.. specification.Limits.Select(Draft)],
    };

    private static LimitDraft Draft(V1.SpecificationLimit limit) => new(limit.Measurand)
    {
        Lower = limit.HasLower ? limit.Lower : null,
        Upper = limit.HasUpper ? limit.Upper : null,
        Target = limit.HasTarget ? limit.Target : null,
        Reference = limit.ReferenceColour is { } colour
            ? new ColourReference(LimitNames.Reference(limit), new CieLab(colour.LStar, colour.AStar, colour.BStar))
            : null,
    };

    // One reference for all: the method computes differences, with their uncertainty, against one colour.
    private static V1.CielabColour? ReferenceOf(V1.Specification specification, V1.NamedMethod? method, string path, Violations violations)
    {
        ImmutableArray<(V1.SpecificationLimit Limit, int Place)> referring =
            [.. specification.Limits.Select((limit, place) => (limit, place)).Where(one => one.limit.ReferenceName is not null || one.limit.ReferenceColour is not null)];
        foreach ((V1.SpecificationLimit limit, int place) in referring)
        {
            if (limit.ReferenceColour is null)
            {
                violations.Add($"{path}.limits[{place}].reference_colour", $"was missing; the reference \"{limit.ReferenceName.Name}\" has to be stored first, or its colour be given.");
            }
            else if (!limit.ReferenceColour.Equals(referring[0].Limit.ReferenceColour))
            {
                violations.Add($"{path}.limits[{place}].reference_colour", $"differs from that of limits[{referring[0].Place}]; expected one reference for all limits of a specification.");
            }
        }

        if (!referring.IsEmpty && method?.Method.ReferenceColour is not null)
        {
            violations.Add($"{path}.limits[{referring[0].Place}].reference_name", $"was given, but the method \"{method.MethodName.Name}\" has a reference colour of its own; expected one or the other.");
        }

        return referring.IsEmpty ? null : referring[0].Limit.ReferenceColour;
    }

    private static V1.Specification WithVersion(V1.Specification specification, V1.NamedMethod method)
    {
        V1.Specification complete = specification.Clone();
        complete.MethodName = method.MethodName.Clone();
        return complete;
    }

    private static V1.Method WithReference(V1.Method method, V1.CielabColour? reference)
    {
        if (reference is null)
        {
            return method;
        }

        V1.Method complete = method.Clone();
        complete.ReferenceColour = reference.Clone();
        return complete;
    }
}
