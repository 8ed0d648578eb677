using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;

using ClearView.Optics.Evaluations;

namespace ClearView.Quality.Specifications;

/// <summary>What came of checking a draft: a specification, or the fields that stand in its way.</summary>
public sealed class SpecificationCheck
{
    private static readonly Measurand[] ColourDifferences =
    [
        Measurands.DeltaL, Measurands.DeltaA, Measurands.DeltaB, Measurands.DeltaChroma, Measurands.DeltaHue, Measurands.DeltaEab, Measurands.DeltaE2000,
    ];

    private SpecificationCheck(Specification? specification, ImmutableArray<FieldError> errors)
    {
        Specification = specification;
        Errors = errors;
    }

    /// <summary>Whether the draft can stand.</summary>
    [MemberNotNullWhen(true, nameof(Specification))]
    public bool IsValid => Specification is not null;

    /// <summary>The specification; <see langword="null"/> where there are errors.</summary>
    public Specification? Specification { get; }

    /// <summary>Every error, in the order of the fields; empty where the draft can stand.</summary>
    public ImmutableArray<FieldError> Errors { get; }

    /// <summary>Checks a draft.</summary>
    /// <param name="draft">The draft.</param>
    public static SpecificationCheck Of(SpecificationDraft draft)
    {
        ArgumentNullException.ThrowIfNull(draft);
        ImmutableArray<FieldError>.Builder errors = ImmutableArray.CreateBuilder<FieldError>();
        Name("product", draft.Product, errors);
        AtLeastOne("version", draft.Version, errors);
        Name("method_name", draft.MethodName, errors);
        AtLeastOne("method_version", draft.MethodVersion, errors);
        AtLeastOne("required_specimen_count", draft.RequiredSpecimens, errors);
        ImmutableArray<LimitDraft> drafts = draft.Limits.IsDefault ? [] : draft.Limits;
        if (drafts.IsEmpty)
        {
            errors.Add(new FieldError("limits", "is empty; a specification needs one limit or more."));
        }

        HashSet<string> seen = new(StringComparer.Ordinal);
        ImmutableArray<SpecificationLimit>.Builder limits = ImmutableArray.CreateBuilder<SpecificationLimit>(drafts.Length);
        foreach ((int index, LimitDraft one) in drafts.Index())
        {
            SpecificationLimit? limit = Limit($"limits[{index.ToString(CultureInfo.InvariantCulture)}]", one, seen, errors);
            if (limit is not null)
            {
                limits.Add(limit);
            }
        }

        return errors.Count > 0
            ? new SpecificationCheck(null, errors.ToImmutable())
            : new SpecificationCheck(
                new Specification(draft.Product, draft.Version, draft.MethodName, draft.MethodVersion, draft.RequiredSpecimens, limits.ToImmutable()),
                []);
    }

    private static SpecificationLimit? Limit(string field, LimitDraft draft, HashSet<string> seen, ImmutableArray<FieldError>.Builder errors)
    {
        int before = errors.Count;
        if (!Measurand.TryFind(draft.MeasurandId, out Measurand? measurand))
        {
            errors.Add(new FieldError($"{field}.measurand", $"was \"{draft.MeasurandId}\", which is no measurand."));
        }
        else if (!seen.Add(draft.MeasurandId))
        {
            errors.Add(new FieldError($"{field}.measurand", $"was \"{draft.MeasurandId}\", which already has a limit."));
        }

        Finite($"{field}.lower", draft.Lower, errors);
        Finite($"{field}.upper", draft.Upper, errors);
        Finite($"{field}.target", draft.Target, errors);
        if (draft.Lower is null && draft.Upper is null)
        {
            errors.Add(new FieldError(field, "has neither a lower nor an upper limit."));
        }

        if (draft is { Lower: { } lower, Upper: { } upper } && lower >= upper)
        {
            errors.Add(new FieldError($"{field}.lower", Invariant($"was {lower}; expected below the upper limit {upper}.")));
        }

        if (draft.Target is { } target && (target < draft.Lower || target > draft.Upper))
        {
            errors.Add(new FieldError($"{field}.target", Invariant($"was {target}; expected between the limits.")));
        }

        if (draft.Reference is { } reference)
        {
            Name($"{field}.reference_name", reference.Name, errors);
            if (measurand is not null && !ColourDifferences.Contains(measurand))
            {
                errors.Add(new FieldError($"{field}.reference_name", $"is given, but {measurand.Id} is no colour difference."));
            }

            if (!double.IsFinite(reference.Colour.L + reference.Colour.A + reference.Colour.B))
            {
                errors.Add(new FieldError($"{field}.reference_colour", "is not finite."));
            }
        }

        return errors.Count == before && measurand is not null
            ? new SpecificationLimit(measurand, draft.Lower, draft.Upper, draft.Target, draft.Reference)
            : null;
    }

    private static void Name(string field, string? value, ImmutableArray<FieldError>.Builder errors)
    {
        if (string.IsNullOrWhiteSpace(value))
        {
            errors.Add(new FieldError(field, "is empty; expected a name."));
        }
    }

    private static void AtLeastOne(string field, int value, ImmutableArray<FieldError>.Builder errors)
    {
        if (value < 1)
        {
            errors.Add(new FieldError(field, Invariant($"was {value}; expected 1 or more.")));
        }
    }

    private static void Finite(string field, double? value, ImmutableArray<FieldError>.Builder errors)
    {
        if (value is { } given && !double.IsFinite(given))
        {
            errors.Add(new FieldError(field, Invariant($"was {given}; expected a finite number.")));
        }
    }

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
