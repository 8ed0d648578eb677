using System.Collections.Immutable;
using System.Globalization;

using ClearView.V1;

namespace ClearView.Contract.Validation;

/// <summary>Gathers every field at fault, so that a client can mend all of them at once.</summary>
public sealed class Violations
{
    // A report that nobody can read helps nobody: past this, further violations are counted only.
    private const int MostReported = 50;

    private readonly List<FieldViolation> _violations = [];
    private int _unreported;

    /// <summary>Whether nothing is at fault.</summary>
    public bool IsEmpty => _violations.Count == 0;

    /// <summary>Adds a field at fault.</summary>
    /// <param name="field">Path of the field, for example "measurement.conditions.aperture_mm".</param>
    /// <param name="description">The value that was sent, and what would be right; formatted in the invariant culture, and cut where it quotes at length.</param>
    public void Add(string field, FormattableString description)
    {
        ArgumentNullException.ThrowIfNull(description);
        if (_violations.Count >= MostReported)
        {
            _unreported++;
            return;
        }

        _violations.Add(new FieldViolation
        {
            Field = ViolationText.Cut(field),
            Description = ViolationText.Cut(description.ToString(CultureInfo.InvariantCulture)),
        });
    }

    /// <summary>Adds what others found.</summary>
    /// <param name="others">Their findings.</param>
    public void AddAll(Violations others)
    {
        ArgumentNullException.ThrowIfNull(others);
        foreach (FieldViolation violation in others._violations)
        {
            Add(violation.Field, $"{violation.Description}");
        }

        _unreported += others._unreported;
    }

    /// <summary>The fields at fault; the last entry says how many more there were, if any.</summary>
    public ImmutableArray<FieldViolation> ToImmutable() => _unreported == 0
        ? [.. _violations]
        : [.. _violations, new FieldViolation { Description = string.Create(CultureInfo.InvariantCulture, $"and {_unreported} more.") }];
}
