using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Thickness;

namespace ClearView.Optics.Evaluations;

/// <summary>What a specimen would give at a reference thickness.</summary>
/// <param name="Scaling">What the scaling rests on.</param>
/// <param name="Evaluation">Evaluation of the scaled total transmittance: luminous transmittance, colour, yellowness, bands; no diffuse values.</param>
/// <param name="BulkHaze">Haze by the model of single scattering in the bulk; <see langword="null"/> where it was not measured or is 100 % or more.</param>
public sealed record ScaledEvaluation(ThicknessScaling Scaling, Evaluation Evaluation, Haze? BulkHaze);
