namespace ClearView.Optics.Colorimetry;

/// <summary>A colour in the CIE 1976 L*u*v* space (ISO/CIE 11664-5).</summary>
/// <param name="L">Lightness L*.</param>
/// <param name="U">u*.</param>
/// <param name="V">v*.</param>
public readonly record struct CieLuv(double L, double U, double V)
{
    /// <summary>Chroma C*uv.</summary>
    public double Chroma => Math.Sqrt((U * U) + (V * V));

    /// <summary>Hue angle h_uv in degrees, [0, 360); 0 where the chroma is 0.</summary>
    public double HueDegrees
    {
        get
        {
            double degrees = Math.Atan2(V, U) * 180 / Math.PI;
            return degrees < 0 ? degrees + 360 : degrees;
        }
    }

    /// <summary>From tristimulus values (ISO/CIE 11664-5); u* and v* are 0 for black.</summary>
    /// <param name="colour">The colour.</param>
    /// <param name="white">The white point, under the same illuminant and observer.</param>
    public static CieLuv From(Tristimulus colour, Tristimulus white)
    {
        double lightness = CieLab.From(colour, white).L;
        UniformChromaticity c = colour.ToUniformChromaticity();
        UniformChromaticity w = white.ToUniformChromaticity();
        return double.IsFinite(c.U) && double.IsFinite(c.V)
            ? new CieLuv(lightness, 13 * lightness * (c.U - w.U), 13 * lightness * (c.V - w.V))
            : new CieLuv(lightness, 0, 0);
    }
}
