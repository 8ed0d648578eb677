namespace ClearView.Optics.Colorimetry;

/// <summary>CIE chromaticity coordinates x, y (CIE 15).</summary>
/// <param name="X">x.</param>
/// <param name="Y">y.</param>
public readonly record struct Chromaticity(double X, double Y);
