namespace ClearView.Optics.Colorimetry;

/// <summary>CIE tristimulus values X, Y, Z on the scale on which the perfect transmitter has Y = 100 (CIE 15).</summary>
/// <param name="X">X.</param>
/// <param name="Y">Y; for transmitted light the luminous transmittance in percent under the same illuminant and observer.</param>
/// <param name="Z">Z.</param>
/// <remarks>They mean nothing without their illuminant and observer. The default value is black.</remarks>
public readonly record struct Tristimulus(double X, double Y, double Z)
{
    /// <summary>Chromaticity x, y (CIE 15); NaN where X + Y + Z is zero.</summary>
    public Chromaticity ToChromaticity()
    {
        double sum = X + Y + Z;
        return new Chromaticity(X / sum, Y / sum);
    }

    /// <summary>Chromaticity u′, v′ of the CIE 1976 uniform scale (CIE 15); NaN where X + 15 Y + 3 Z is zero.</summary>
    public UniformChromaticity ToUniformChromaticity()
    {
        double sum = X + (15 * Y) + (3 * Z);
        return new UniformChromaticity(4 * X / sum, 9 * Y / sum);
    }
}
