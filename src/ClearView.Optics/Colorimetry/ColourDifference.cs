using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Colorimetry;

/// <summary>Differences between two colours under one illuminant and observer.</summary>
public static class ColourDifference
{
    /// <summary>ΔE*ab: the distance in CIELAB (ISO/CIE 11664-4).</summary>
    /// <param name="one">One colour.</param>
    /// <param name="other">The other.</param>
    public static double DeltaEab(CieLab one, CieLab other)
    {
        double l = one.L - other.L;
        double a = one.A - other.A;
        double b = one.B - other.B;
        return Math.Sqrt((l * l) + (a * a) + (b * b));
    }

    /// <summary>CIE94 (CIE 116); depends on which colour is the reference.</summary>
    /// <param name="reference">The reference.</param>
    /// <param name="specimen">The specimen.</param>
    /// <param name="factors">The parametric factors.</param>
    public static double Cie94(CieLab reference, CieLab specimen, Cie94Factors factors)
    {
        ArgumentNullException.ThrowIfNull(factors);
        return DualDifference.Cie94(reference, DualLab.Constant(specimen), factors).Value;
    }

    /// <summary>CMC(l:c) (ISO 105-J03); depends on which colour is the reference.</summary>
    /// <param name="reference">The reference.</param>
    /// <param name="specimen">The specimen.</param>
    /// <param name="l">Lightness factor, above 0: 2 for acceptability, 1 for perceptibility.</param>
    /// <param name="c">Chroma factor, above 0: 1.</param>
    public static double Cmc(CieLab reference, CieLab specimen, double l, double c)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(l);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(c);
        return DualDifference.Cmc(reference, DualLab.Constant(specimen), l, c).Value;
    }

    /// <summary>CIEDE2000 with parametric factors of 1 (ISO/CIE 11664-6).</summary>
    /// <param name="one">One colour.</param>
    /// <param name="other">The other; the result does not depend on the order.</param>
    public static double Ciede2000(CieLab one, CieLab other) => Ciede2000(one, other, 1, 1, 1);

    /// <summary>CIEDE2000 (ISO/CIE 11664-6; implementation notes of Sharma, Wu and Dalal 2005).</summary>
    /// <param name="one">One colour.</param>
    /// <param name="other">The other; the result does not depend on the order.</param>
    /// <param name="kL">Parametric factor of lightness, above 0.</param>
    /// <param name="kC">Parametric factor of chroma, above 0.</param>
    /// <param name="kH">Parametric factor of hue, above 0.</param>
    public static double Ciede2000(CieLab one, CieLab other, double kL, double kC, double kH)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(kL);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(kC);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(kH);
        return DualDifference.Ciede2000(DualLab.Constant(one), DualLab.Constant(other), kL, kC, kH).Value;
    }
}
