using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Evaluations;

/// <summary>The numbers of one reading, bare: what <see cref="ReadingEvaluator"/> computes without allocating.</summary>
/// <param name="LuminousTransmittance">τt, fraction.</param>
/// <param name="DiffuseLuminousTransmittance">τd, fraction; NaN where diffuse transmittance was not given.</param>
/// <param name="Haze">τd / τt, fraction; NaN where diffuse was not given or τt is not above 0.</param>
/// <param name="Colour">Tristimulus values of the total transmittance under the method's colour pair.</param>
/// <param name="Lab">CIELAB under the method's colour pair.</param>
/// <param name="YellownessE313">ASTM E313; NaN where it was not asked for or Y is not above 0.</param>
/// <param name="YellownessD1925">ASTM D1925; NaN where it was not asked for or Y is not above 0.</param>
public readonly record struct ReadingValues(
    double LuminousTransmittance,
    double DiffuseLuminousTransmittance,
    double Haze,
    Tristimulus Colour,
    CieLab Lab,
    double YellownessE313,
    double YellownessD1925);
