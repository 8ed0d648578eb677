using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Colorimetry;

/// <summary>Differences between two colours under one illuminant and observer.</summary>
public static class ColourDifference
{
    private const double Radians = Math.PI / 180;

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
        ColourShift shift = ColourShift.Between(reference, specimen);
        double l = shift.DeltaL / factors.KL;
        double c = shift.DeltaC / (1 + (factors.K1 * reference.Chroma));
        double h = shift.DeltaH / (1 + (factors.K2 * reference.Chroma));
        return Math.Sqrt((l * l) + (c * c) + (h * h));
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
        ColourShift shift = ColourShift.Between(reference, specimen);
        double chroma = reference.Chroma;
        double hue = reference.HueDegrees;
        double sl = reference.L < 16 ? 0.511 : 0.040975 * reference.L / (1 + (0.01765 * reference.L));
        double sc = (0.0638 * chroma / (1 + (0.0131 * chroma))) + 0.638;
        double f = Math.Sqrt(Math.Pow(chroma, 4) / (Math.Pow(chroma, 4) + 1900));
        double t = hue is >= 164 and <= 345
            ? 0.56 + Math.Abs(0.2 * Math.Cos((hue + 168) * Radians))
            : 0.36 + Math.Abs(0.4 * Math.Cos((hue + 35) * Radians));
        double sh = sc * ((f * t) + 1 - f);
        double dl = shift.DeltaL / (l * sl);
        double dc = shift.DeltaC / (c * sc);
        double dh = shift.DeltaH / sh;
        return Math.Sqrt((dl * dl) + (dc * dc) + (dh * dh));
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
