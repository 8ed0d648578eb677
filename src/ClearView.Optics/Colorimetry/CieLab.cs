namespace ClearView.Optics.Colorimetry;

/// <summary>A colour in the CIE 1976 L*a*b* space (ISO/CIE 11664-4).</summary>
/// <param name="L">Lightness L*; 100 for the perfect transmitter.</param>
/// <param name="A">a*: red above 0, green below.</param>
/// <param name="B">b*: yellow above 0, blue below.</param>
/// <remarks>Holds for one illuminant and observer only. The default value is black.</remarks>
public readonly record struct CieLab(double L, double A, double B)
{
    private const double Threshold = 6.0 / 29 * (6.0 / 29) * (6.0 / 29);
    private const double Slope = 29.0 / 6 * (29.0 / 6) / 3;

    /// <summary>Chroma C*ab.</summary>
    public double Chroma => Math.Sqrt((A * A) + (B * B));

    /// <summary>Hue angle h_ab in degrees, [0, 360); 0 where the chroma is 0.</summary>
    public double HueDegrees
    {
        get
        {
            double degrees = Math.Atan2(B, A) * 180 / Math.PI;
            return degrees < 0 ? degrees + 360 : degrees;
        }
    }

    /// <summary>From tristimulus values (ISO/CIE 11664-4).</summary>
    /// <param name="colour">The colour.</param>
    /// <param name="white">The white point, under the same illuminant and observer; every value above 0.</param>
    /// <remarks>The straight part of the function carries on below 0, so that noise around black stays finite.</remarks>
    public static CieLab From(Tristimulus colour, Tristimulus white)
    {
        double fx = Compress(colour.X / white.X);
        double fy = Compress(colour.Y / white.Y);
        double fz = Compress(colour.Z / white.Z);
        return new CieLab((116 * fy) - 16, 500 * (fx - fy), 200 * (fy - fz));
    }

    /// <summary>Back to tristimulus values.</summary>
    /// <param name="white">The white point, under the same illuminant and observer.</param>
    public Tristimulus ToTristimulus(Tristimulus white)
    {
        double fy = (L + 16) / 116;
        return new Tristimulus(
            white.X * Expand(fy + (A / 500)),
            white.Y * Expand(fy),
            white.Z * Expand(fy - (B / 200)));
    }

    /// <summary>f of ISO/CIE 11664-4: the cube root, straight below (6/29)³.</summary>
    internal static double Compress(double ratio) => ratio > Threshold ? Math.Cbrt(ratio) : (Slope * ratio) + (4.0 / 29);

    /// <summary>Derivative of <see cref="Compress"/>, from its value.</summary>
    internal static double CompressionSlope(double ratio, double compressed) =>
        ratio > Threshold ? 1 / (3 * compressed * compressed) : Slope;

    private static double Expand(double f) => f > 6.0 / 29 ? f * f * f : (f - (4.0 / 29)) / Slope;
}
