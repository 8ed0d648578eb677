using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace ClearView.Optics.Colorimetry;

/// <summary>The yellowness index of plastics after ISO 17223: which pairs of illuminant and observer it knows.</summary>
/// <remarks>
/// It has the form and the figures of ASTM E313, for C with the 2° and D65 with the 10° observer only. Pairs and figures from
/// memory of ISO 17223:2014.
/// </remarks>
public static class Iso17223
{
    /// <summary>Every pair that the standard knows, with its coefficients.</summary>
    public static ImmutableArray<E313Coefficients> All { get; } = [E313Coefficients.CDegree2, E313Coefficients.D65Degree10];

    /// <summary>Finds the coefficients of a pair.</summary>
    /// <param name="light">The illuminant and observer.</param>
    /// <param name="coefficients">The coefficients, where the standard knows the pair.</param>
    public static bool TryFind(LightAndObserver light, [NotNullWhen(true)] out E313Coefficients? coefficients)
    {
        coefficients = All.FirstOrDefault(candidate => candidate.LightAndObserver == light);
        return coefficients is not null;
    }
}
