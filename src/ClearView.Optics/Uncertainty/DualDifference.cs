using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Uncertainty;

/// <summary>Colour differences that carry derivatives; the one place where the weighted ones are written down.</summary>
internal static class DualDifference
{
    private const double Radians = Math.PI / 180;

    // Hue angles come from an arctangent: two that are 180° apart may differ from it by a rounding.
    private const double HueTieDegrees = 1e-10;

    public static Dual DeltaEab(DualReading reading, CieLab reference) => DeltaEab(reading.Lab, reference);

    public static Dual DeltaEab(DualLab specimen, CieLab reference)
    {
        Dual l = specimen.L - reference.L;
        Dual a = specimen.A - reference.A;
        Dual b = specimen.B - reference.B;
        return Dual.Sqrt((l * l) + (a * a) + (b * b));
    }

    /// <summary>ΔH*ab in the form that does not cancel; see <see cref="ColourShift.Between"/>.</summary>
    public static Dual DeltaHue(DualReading reading, CieLab reference)
    {
        Dual product = reading.Chroma * reference.Chroma;
        Dual inner = (reading.A * reference.A) + (reading.B * reference.B);
        Dual cross = (reference.A * reading.B) - (reference.B * reading.A);
        return product.Value + inner.Value > 0 ? cross / Dual.Sqrt((product + inner) * 0.5) : Dual.Sqrt(2 * (product - inner));
    }

    /// <summary>CIE94 (CIE 116); the reference sets the weights.</summary>
    public static Dual Cie94(CieLab reference, DualLab specimen, Cie94Factors factors)
    {
        Dual l = (specimen.L - reference.L) * (1 / factors.KL);
        Dual c = (specimen.Chroma - reference.Chroma) * (1 / (factors.KC * (1 + (factors.K1 * reference.Chroma))));
        double h = 1 / (factors.KH * (1 + (factors.K2 * reference.Chroma)));
        return Dual.Sqrt((l * l) + (c * c) + (HueSquare(reference, specimen) * (h * h)));
    }

    /// <summary>CMC(l:c) (ISO 105-J03); the reference sets the weights.</summary>
    public static Dual Cmc(CieLab reference, DualLab specimen, double lightnessFactor, double chromaFactor)
    {
        double chroma = reference.Chroma;
        double hue = reference.HueDegrees;
        double sl = reference.L < 16 ? 0.511 : 0.040975 * reference.L / (1 + (0.01765 * reference.L));
        double sc = (0.0638 * chroma / (1 + (0.0131 * chroma))) + 0.638;
        double f = Math.Sqrt(Math.Pow(chroma, 4) / (Math.Pow(chroma, 4) + 1900));
        double t = hue is >= 164 and <= 345
            ? 0.56 + Math.Abs(0.2 * Math.Cos((hue + 168) * Radians))
            : 0.36 + Math.Abs(0.4 * Math.Cos((hue + 35) * Radians));
        double sh = sc * ((f * t) + 1 - f);
        Dual l = (specimen.L - reference.L) * (1 / (lightnessFactor * sl));
        Dual c = (specimen.Chroma - reference.Chroma) * (1 / (chromaFactor * sc));
        return Dual.Sqrt((l * l) + (c * c) + (HueSquare(reference, specimen) * (1 / (sh * sh))));
    }

    /// <summary>Special metamerism index, change in illuminant, multiplicative correction (CIE 15); see <see cref="Metamerism.SpecialIndex"/>.</summary>
    public static Dual SpecialMetamerism(
        (Tristimulus UnderReference, Tristimulus UnderTest) reference,
        DualTristimulus specimenUnderReference,
        DualTristimulus specimenUnderTest,
        Tristimulus testWhite)
    {
        Tristimulus match = reference.UnderReference;
        var corrected = new DualTristimulus(
            specimenUnderTest.X * match.X / specimenUnderReference.X,
            specimenUnderTest.Y * match.Y / specimenUnderReference.Y,
            specimenUnderTest.Z * match.Z / specimenUnderReference.Z);
        return DeltaEab(DualLab.From(corrected, testWhite), CieLab.From(reference.UnderTest, testWhite));
    }

    /// <summary>CIEDE2000 (ISO/CIE 11664-6; implementation notes of Sharma, Wu and Dalal 2005).</summary>
    public static Dual Ciede2000(DualLab one, DualLab other, double kL, double kC, double kH)
    {
        Dual chroma7 = Dual.Pow((one.Chroma + other.Chroma) * 0.5, 7);
        Dual g = 0.5 * (1 - Ratio7(chroma7));
        var first = new DualLab(one.L, (1 + g) * one.A, one.B);
        var second = new DualLab(other.L, (1 + g) * other.A, other.B);
        bool hueIsDefined = first.Chroma.Value * second.Chroma.Value != 0;

        Dual deltaHue = hueIsDefined ? HueDifference(first.HueDegrees, second.HueDegrees) : 0;
        Dual deltaH = hueIsDefined ? 2 * Dual.Sqrt(first.Chroma * second.Chroma) * Dual.Sin(deltaHue * (0.5 * Radians)) : 0;
        Dual meanHue = hueIsDefined ? MeanHue(first.HueDegrees, second.HueDegrees) : first.HueDegrees + second.HueDegrees;
        Dual meanC = (first.Chroma + second.Chroma) * 0.5;

        Dual t = 1
            - (0.17 * Cosine(meanHue, 1, -30))
            + (0.24 * Cosine(meanHue, 2, 0))
            + (0.32 * Cosine(meanHue, 3, 6))
            - (0.20 * Cosine(meanHue, 4, -63));
        Dual lightness = ((first.L + second.L) * 0.5) - 50;
        Dual lightness2 = lightness * lightness;
        Dual sl = 1 + (0.015 * lightness2 / Dual.Sqrt(20 + lightness2));
        Dual sc = 1 + (0.045 * meanC);
        Dual sh = 1 + (0.015 * meanC * t);
        Dual rc = 2 * Ratio7(Dual.Pow(meanC, 7));
        Dual hueTurn = (meanHue - 275) * (1.0 / 25);
        Dual rt = -1 * rc * Dual.Sin(Dual.Exp(-1 * hueTurn * hueTurn) * (60 * Radians));

        Dual l = (second.L - first.L) / (kL * sl);
        Dual c = (second.Chroma - first.Chroma) / (kC * sc);
        Dual h = deltaH / (kH * sh);
        return Dual.Sqrt((l * l) + (c * c) + (h * h) + (rt * c * h));
    }

    /// <summary>ΔH², of two forms of the same the one that does not cancel; none against a neutral reference, which has no hue.</summary>
    private static Dual HueSquare(CieLab reference, DualLab specimen)
    {
        if (reference.Chroma == 0)
        {
            return 0;
        }

        Dual product = specimen.Chroma * reference.Chroma;
        Dual inner = (specimen.A * reference.A) + (specimen.B * reference.B);
        Dual cross = (reference.A * specimen.B) - (reference.B * specimen.A);
        return inner.Value > 0 ? 2 * cross * cross / (product + inner) : 2 * (product - inner);
    }

    private static Dual Ratio7(Dual chroma7) => Dual.Sqrt(chroma7 / (chroma7 + Math.Pow(25, 7)));

    private static Dual Cosine(Dual hueDegrees, double times, double turnDegrees) =>
        Dual.Cos(((times * hueDegrees) + turnDegrees) * Radians);

    private static Dual HueDifference(Dual first, Dual second)
    {
        Dual difference = second - first;
        return difference.Value switch
        {
            > 180 + HueTieDegrees => difference - 360,
            < -180 - HueTieDegrees => difference + 360,
            _ => difference,
        };
    }

    private static Dual MeanHue(Dual first, Dual second)
    {
        Dual sum = first + second;
        if (Math.Abs(first.Value - second.Value) <= 180 + HueTieDegrees)
        {
            return sum * 0.5;
        }

        return sum.Value < 360 ? (sum + 360) * 0.5 : (sum - 360) * 0.5;
    }
}
