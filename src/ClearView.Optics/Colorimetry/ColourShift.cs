using System.Collections.Immutable;

namespace ClearView.Optics.Colorimetry;

/// <summary>The parts of a difference in CIELAB, specimen less reference (ISO/CIE 11664-4).</summary>
/// <param name="DeltaL">ΔL*: above 0 lighter.</param>
/// <param name="DeltaA">Δa*: above 0 redder.</param>
/// <param name="DeltaB">Δb*: above 0 yellower.</param>
/// <param name="DeltaC">ΔC*ab: above 0 more saturated.</param>
/// <param name="DeltaH">ΔH*ab: with the sign of the change in hue angle.</param>
public readonly record struct ColourShift(double DeltaL, double DeltaA, double DeltaB, double DeltaC, double DeltaH)
{
    /// <summary>The difference of two colours under one illuminant and observer.</summary>
    /// <param name="reference">The reference.</param>
    /// <param name="specimen">The specimen.</param>
    public static ColourShift Between(CieLab reference, CieLab specimen)
    {
        double a = specimen.A - reference.A;
        double b = specimen.B - reference.B;
        double c = specimen.Chroma - reference.Chroma;

        // ΔH² = Δa² + Δb² − ΔC², rearranged so that nothing cancels: 2 (C₁C₂ − a₁a₂ − b₁b₂).
        double product = reference.Chroma * specimen.Chroma;
        double inner = (reference.A * specimen.A) + (reference.B * specimen.B);
        double cross = (reference.A * specimen.B) - (reference.B * specimen.A);
        double h = product + inner > 0 ? cross / Math.Sqrt((product + inner) / 2) : Math.Sqrt(Math.Max(0, 2 * (product - inner)));
        return new ColourShift(specimen.L - reference.L, a, b, c, h);
    }

    /// <summary>The difference in plain words, strongest first, for example "yellower, darker".</summary>
    /// <param name="smallestNamed">Parts smaller than this are not named; 0 or more, in CIELAB units.</param>
    /// <returns>The words; empty where no part is large enough.</returns>
    public ImmutableArray<string> Words(double smallestNamed)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(smallestNamed);
        return
        [
            .. new[]
            {
                (Size: DeltaL, Up: "lighter", Down: "darker"),
                (Size: DeltaA, Up: "redder", Down: "greener"),
                (Size: DeltaB, Up: "yellower", Down: "bluer"),
            }
                .Where(part => Math.Abs(part.Size) >= smallestNamed && part.Size != 0)
                .OrderByDescending(part => Math.Abs(part.Size))
                .Select(part => part.Size > 0 ? part.Up : part.Down),
        ];
    }
}
