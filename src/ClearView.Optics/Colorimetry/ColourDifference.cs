namespace ClearView.Optics.Colorimetry;

/// <summary>Differences between two colours under one illuminant and observer.</summary>
public static class ColourDifference
{
    private const double Radians = Math.PI / 180;

    // Hue angles come from an arctangent: two that are 180° apart may differ from it by a rounding.
    private const double HueTieDegrees = 1e-10;

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

    /// <summary>CIEDE2000 with parametric factors of 1 (ISO/CIE 11664-6; implementation notes of Sharma, Wu and Dalal 2005).</summary>
    /// <param name="one">One colour.</param>
    /// <param name="other">The other; the result does not depend on the order.</param>
    public static double Ciede2000(CieLab one, CieLab other)
    {
        double meanChroma = (one.Chroma + other.Chroma) / 2;
        double chroma7 = Math.Pow(meanChroma, 7);
        double g = 0.5 * (1 - Math.Sqrt(chroma7 / (chroma7 + Math.Pow(25, 7))));
        var first = new CieLab(one.L, (1 + g) * one.A, one.B);
        var second = new CieLab(other.L, (1 + g) * other.A, other.B);
        bool hueIsDefined = first.Chroma * second.Chroma != 0;

        double deltaL = second.L - first.L;
        double deltaC = second.Chroma - first.Chroma;
        double deltaHue = hueIsDefined ? HueDifference(first.HueDegrees, second.HueDegrees) : 0;
        double deltaH = 2 * Math.Sqrt(first.Chroma * second.Chroma) * Math.Sin(deltaHue / 2 * Radians);

        double meanL = (first.L + second.L) / 2;
        double meanC = (first.Chroma + second.Chroma) / 2;
        double meanHue = hueIsDefined ? MeanHue(first.HueDegrees, second.HueDegrees) : first.HueDegrees + second.HueDegrees;

        double t = 1
            - (0.17 * Math.Cos((meanHue - 30) * Radians))
            + (0.24 * Math.Cos(2 * meanHue * Radians))
            + (0.32 * Math.Cos(((3 * meanHue) + 6) * Radians))
            - (0.20 * Math.Cos(((4 * meanHue) - 63) * Radians));
        double lightness2 = (meanL - 50) * (meanL - 50);
        double sl = 1 + (0.015 * lightness2 / Math.Sqrt(20 + lightness2));
        double sc = 1 + (0.045 * meanC);
        double sh = 1 + (0.015 * meanC * t);
        double meanC7 = Math.Pow(meanC, 7);
        double rc = 2 * Math.Sqrt(meanC7 / (meanC7 + Math.Pow(25, 7)));
        double hueTurn = (meanHue - 275) / 25;
        double rt = -rc * Math.Sin(2 * 30 * Math.Exp(-hueTurn * hueTurn) * Radians);

        double l = deltaL / sl;
        double c = deltaC / sc;
        double h = deltaH / sh;
        return Math.Sqrt((l * l) + (c * c) + (h * h) + (rt * c * h));
    }

    private static double HueDifference(double first, double second)
    {
        double difference = second - first;
        return difference switch
        {
            > 180 + HueTieDegrees => difference - 360,
            < -180 - HueTieDegrees => difference + 360,
            _ => difference,
        };
    }

    private static double MeanHue(double first, double second)
    {
        double sum = first + second;
        if (Math.Abs(first - second) <= 180 + HueTieDegrees)
        {
            return sum / 2;
        }

        return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
    }
}
