using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace ClearView.Optics.Colorimetry;

/// <summary>Coefficients of the yellowness index, as ASTM E313 prints them for four pairs of illuminant and observer.</summary>
/// <remarks>Transcribed from memory of the table in ASTM E313 (clause on the yellowness index); a test re-derives them from the white points.</remarks>
public sealed class E313Coefficients
{
    private E313Coefficients(LightAndObserver light, double cx, double cz)
    {
        LightAndObserver = light;
        Cx = cx;
        Cz = cz;
    }

    /// <summary>Illuminant C, 2° observer.</summary>
    public static E313Coefficients CDegree2 { get; } = new(LightAndObserver.CDegree2, 1.2769, 1.0592);

    /// <summary>Illuminant D65, 2° observer.</summary>
    public static E313Coefficients D65Degree2 { get; } = new(LightAndObserver.D65Degree2, 1.2985, 1.1335);

    /// <summary>Illuminant C, 10° observer.</summary>
    public static E313Coefficients CDegree10 { get; } =
        new(new LightAndObserver(Illuminant.C, Observer.Cie1964Degree10), 1.2871, 1.0781);

    /// <summary>Illuminant D65, 10° observer.</summary>
    public static E313Coefficients D65Degree10 { get; } = new(LightAndObserver.D65Degree10, 1.3013, 1.1498);

    /// <summary>Every pair that the standard prints.</summary>
    public static ImmutableArray<E313Coefficients> All { get; } = [CDegree2, D65Degree2, CDegree10, D65Degree10];

    /// <summary>The illuminant and observer that the coefficients hold for.</summary>
    public LightAndObserver LightAndObserver { get; }

    /// <summary>Cx.</summary>
    public double Cx { get; }

    /// <summary>Cz.</summary>
    public double Cz { get; }

    /// <summary>Finds the coefficients of a pair.</summary>
    /// <param name="light">The illuminant and observer.</param>
    /// <param name="coefficients">The coefficients, where the standard prints them.</param>
    public static bool TryFind(LightAndObserver light, [NotNullWhen(true)] out E313Coefficients? coefficients)
    {
        coefficients = All.FirstOrDefault(candidate => candidate.LightAndObserver == light);
        return coefficients is not null;
    }
}
