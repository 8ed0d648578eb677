using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Thickness;
using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Evaluations;

/// <summary>What a specimen would give at a reference thickness.</summary>
/// <param name="Scaling">What the scaling rests on.</param>
/// <param name="Evaluation">Evaluation of the scaled total transmittance: luminous transmittance, colour, yellowness, bands; no diffuse values.</param>
/// <param name="BulkHaze">Haze by the model of single scattering in the bulk; <see langword="null"/> where it was not measured or is 100 % or more.</param>
public sealed record ScaledEvaluation(ThicknessScaling Scaling, Evaluation Evaluation, Haze? BulkHaze)
{
    /// <summary>Uncertainty of <see cref="BulkHaze"/>, from that of the measured haze; the model itself is taken as given.</summary>
    /// <param name="measured">Uncertainty of the measured haze.</param>
    /// <returns>The uncertainty; <see langword="null"/> where there is no scaled haze.</returns>
    public MeasurandUncertainty? BulkHazeUncertainty(MeasurandUncertainty measured)
    {
        ArgumentNullException.ThrowIfNull(measured);
        return BulkHaze is { } haze
            ? measured.Through(haze.Percent, Scaling.BulkHazeDerivative(Haze.FromPercent(measured.Value)))
            : null;
    }
}
