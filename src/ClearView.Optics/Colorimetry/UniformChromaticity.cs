namespace ClearView.Optics.Colorimetry;

/// <summary>Coordinates u′, v′ of the CIE 1976 uniform chromaticity scale (CIE 15).</summary>
/// <param name="U">u′.</param>
/// <param name="V">v′.</param>
public readonly record struct UniformChromaticity(double U, double V);
