using ClearView.Contract.Validation;
using ClearView.Optics.Evaluations;

namespace ClearView.Contract.Studies;

/// <summary>Limits of a specification that a series is held against.</summary>
public static class SpecificationLimits
{
    /// <summary>The limits on one measurand.</summary>
    /// <param name="specification">The specification, as it is stored.</param>
    /// <param name="measurand">The measurand.</param>
    /// <param name="path">Path of the field that names the specification, for violations.</param>
    /// <param name="violations">Takes that there are none.</param>
    /// <returns>The limits; <see langword="null"/> where the specification has none on the measurand.</returns>
    public static V1.SeriesLimits? Of(V1.Specification specification, Measurand measurand, string path, Violations violations)
    {
        ArgumentNullException.ThrowIfNull(specification);
        ArgumentNullException.ThrowIfNull(measurand);
        ArgumentNullException.ThrowIfNull(violations);
        if (specification.Limits.FirstOrDefault(limit => limit.Measurand == measurand.Id) is not { } found)
        {
            violations.Add(
                path,
                $"names a specification without a limit on {measurand.Id}; it has limits on {string.Join(", ", specification.Limits.Select(limit => limit.Measurand))}.");
            return null;
        }

        var limits = new V1.SeriesLimits();
        if (found.HasLower)
        {
            limits.Lower = found.Lower;
        }

        if (found.HasUpper)
        {
            limits.Upper = found.Upper;
        }

        if (found.HasTarget)
        {
            limits.Target = found.Target;
        }

        return limits;
    }
}
