using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Transmission;

namespace ClearView.Optics.Evaluations;

/// <summary>How scans become numbers: standard, illuminants, observers and indices. Nothing in it has a silent default.</summary>
/// <remarks>Immutable, thread-safe; equal when every choice is equal.</remarks>
public sealed class Method : IEquatable<Method>
{
    /// <summary>Takes every choice.</summary>
    /// <param name="hazeStandard">Standard of haze and luminous transmittance.</param>
    /// <param name="luminous">Illuminant and observer of luminous transmittance and haze.</param>
    /// <param name="colour">Illuminant and observer of the transmitted colour.</param>
    /// <param name="yellowness">Yellowness indices to give.</param>
    /// <exception cref="ArgumentException">ASTM E313 is asked for under a colour pair that it prints no coefficients for.</exception>
    public Method(HazeStandard hazeStandard, LightAndObserver luminous, LightAndObserver colour, ImmutableArray<YellownessKind> yellowness)
    {
        ArgumentNullException.ThrowIfNull(hazeStandard);
        ArgumentNullException.ThrowIfNull(luminous);
        ArgumentNullException.ThrowIfNull(colour);
        if (yellowness.Contains(YellownessKind.AstmE313))
        {
            E313 = E313Coefficients.TryFind(colour, out E313Coefficients? coefficients)
                ? coefficients
                : throw new ArgumentException(
                    $"ASTM E313 prints no coefficients for {colour}; expected {string.Join(", ", E313Coefficients.All.Select(c => c.LightAndObserver))}.",
                    nameof(yellowness));
        }

        GivesD1925 = yellowness.Contains(YellownessKind.AstmD1925);
        HazeStandard = hazeStandard;
        Luminous = luminous;
        Colour = colour;
    }

    /// <summary>Standard of haze and luminous transmittance.</summary>
    public HazeStandard HazeStandard { get; }

    /// <summary>Illuminant and observer of luminous transmittance and haze.</summary>
    public LightAndObserver Luminous { get; }

    /// <summary>Illuminant and observer of the transmitted colour.</summary>
    public LightAndObserver Colour { get; }

    /// <summary>Coefficients of the ASTM E313 index, or <see langword="null"/> where it was not asked for.</summary>
    public E313Coefficients? E313 { get; }

    /// <summary>Whether the withdrawn ASTM D1925 index is given.</summary>
    public bool GivesD1925 { get; }

    /// <inheritdoc/>
    public bool Equals(Method? other) =>
        other is not null
        && HazeStandard == other.HazeStandard
        && Luminous == other.Luminous
        && Colour == other.Colour
        && E313 == other.E313
        && GivesD1925 == other.GivesD1925;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Method);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(HazeStandard, Luminous, Colour, E313, GivesD1925);

    /// <summary>Whether two methods make the same choices.</summary>
    public static bool operator ==(Method? left, Method? right) => left?.Equals(right) ?? right is null;

    /// <summary>Whether two methods differ.</summary>
    public static bool operator !=(Method? left, Method? right) => !(left == right);
}
