namespace ClearView.Optics.Colorimetry;

/// <summary>Parametric factors of CIE94 (CIE 116).</summary>
/// <param name="KL">Factor of lightness.</param>
/// <param name="K1">Slope of the chroma weight.</param>
/// <param name="K2">Slope of the hue weight.</param>
public sealed record Cie94Factors(double KL, double K1, double K2)
{
    /// <summary>Parametric factor of chroma, above 0.</summary>
    public double KC { get; init; } = 1;

    /// <summary>Parametric factor of hue, above 0.</summary>
    public double KH { get; init; } = 1;

    /// <summary>Reference conditions, as for graphic arts: 1, 0.045, 0.015.</summary>
    public static Cie94Factors ReferenceConditions { get; } = new(1, 0.045, 0.015);

    /// <summary>Textiles: 2, 0.048, 0.014.</summary>
    public static Cie94Factors Textiles { get; } = new(2, 0.048, 0.014);

    /// <summary>The slopes of the reference conditions with parametric factors of one's own.</summary>
    /// <param name="factors">The factors.</param>
    public static Cie94Factors From(DifferenceFactors factors)
    {
        ArgumentNullException.ThrowIfNull(factors);
        return ReferenceConditions with { KL = factors.Lightness, KC = factors.Chroma, KH = factors.Hue };
    }
}
