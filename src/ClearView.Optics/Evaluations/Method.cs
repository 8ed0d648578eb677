using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Transmission.Thickness;

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
    /// <exception cref="ArgumentException">ASTM E313 or ISO 17223 is asked for under a colour pair that it prints no coefficients for.</exception>
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

        if (yellowness.Contains(YellownessKind.Iso17223))
        {
            Iso17223 = Colorimetry.Iso17223.TryFind(colour, out E313Coefficients? coefficients)
                ? coefficients
                : throw new ArgumentException(
                    $"ISO 17223 does not know {colour}; expected {string.Join(", ", Colorimetry.Iso17223.All.Select(c => c.LightAndObserver))}.",
                    nameof(yellowness));
        }

        Yellowness = yellowness;
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

    /// <summary>Yellowness indices to give.</summary>
    public ImmutableArray<YellownessKind> Yellowness { get; }

    /// <summary>Coefficients of the ASTM E313 index, or <see langword="null"/> where it was not asked for.</summary>
    public E313Coefficients? E313 { get; }

    /// <summary>Coefficients of the ISO 17223 index, or <see langword="null"/> where it was not asked for.</summary>
    public E313Coefficients? Iso17223 { get; }

    /// <summary>Whether the withdrawn ASTM D1925 index is given.</summary>
    public bool GivesD1925 { get; }

    /// <summary>Colour that differences are taken against, under <see cref="Colour"/>; <see langword="null"/> where none are asked for.</summary>
    public CieLab? ReferenceColour { get; init; }

    /// <summary>Parametric factors of the weighted colour differences.</summary>
    public DifferenceFactors DifferenceFactors { get; init; } = DifferenceFactors.Default;

    /// <summary>Second light that a match with <see cref="ReferenceColour"/> is tried under, with the observer of <see cref="Colour"/>;
    /// <see langword="null"/> where it is not asked for.</summary>
    /// <exception cref="ArgumentException">The test light's observer is another, or the test light is the colour pair itself.</exception>
    public MetamerismTest? Metamerism
    {
        get;
        init => field = value is null || (value.TestLight.Observer == Colour.Observer && value.TestLight != Colour)
            ? value
            : throw new ArgumentException($"The test light was {value.TestLight}; expected another illuminant than that of {Colour} with its observer.", nameof(value));
    }

    /// <summary>Initial index, ASTM E313 or ISO 17223, that the change in yellowness is taken against; <see langword="null"/> where it is not asked for.</summary>
    public double? InitialYellownessIndex { get; init; }

    /// <summary>Bands of the user's own, beside the named ones.</summary>
    public ImmutableArray<Band> Bands { get; init; } = [];

    /// <summary>Limit of the light-barrier screen, fraction; <see langword="null"/> where it is not asked for.</summary>
    public double? LightBarrierLimitFraction { get; init; }

    /// <summary>Thickness to scale to; <see langword="null"/> where nothing is scaled.</summary>
    public ThicknessScaling? Thickness { get; init; }

    /// <summary>The same choices, scaled to another thickness.</summary>
    /// <param name="thickness">The scaling; <see langword="null"/> to scale nothing.</param>
    public Method WithThickness(ThicknessScaling? thickness) => new(HazeStandard, Luminous, Colour, Yellowness)
    {
        ReferenceColour = ReferenceColour,
        DifferenceFactors = DifferenceFactors,
        Metamerism = Metamerism,
        InitialYellownessIndex = InitialYellownessIndex,
        Bands = Bands,
        LightBarrierLimitFraction = LightBarrierLimitFraction,
        Thickness = thickness,
    };

    /// <inheritdoc/>
    public bool Equals(Method? other) =>
        other is not null
        && HazeStandard == other.HazeStandard
        && Luminous == other.Luminous
        && Colour == other.Colour
        && E313 == other.E313
        && Iso17223 == other.Iso17223
        && GivesD1925 == other.GivesD1925
        && ReferenceColour == other.ReferenceColour
        && DifferenceFactors == other.DifferenceFactors
        && Metamerism == other.Metamerism
        && InitialYellownessIndex == other.InitialYellownessIndex
        && Bands.SequenceEqual(other.Bands)
        && LightBarrierLimitFraction == other.LightBarrierLimitFraction
        && Thickness == other.Thickness;

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as Method);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(HazeStandard, Luminous, Colour, E313, Iso17223, GivesD1925);

    /// <summary>Whether two methods make the same choices.</summary>
    public static bool operator ==(Method? left, Method? right) => left?.Equals(right) ?? right is null;

    /// <summary>Whether two methods differ.</summary>
    public static bool operator !=(Method? left, Method? right) => !(left == right);
}
