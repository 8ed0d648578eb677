using ClearView.Optics.Evaluations;
using ClearView.Optics.Uncertainty;

namespace ClearView.Quality.Specifications;

/// <summary>A value to be judged, with what is known of its uncertainty.</summary>
/// <param name="Measurand">The measurand.</param>
/// <param name="Value">Its value, finite, in the measurand's unit.</param>
public sealed record MeasuredQuantity(Measurand Measurand, double Value)
{
    /// <summary>Standard uncertainty u, 0 or more, in the measurand's unit; <see langword="null"/> where unknown.</summary>
    public double? StandardUncertainty { get; init; }

    /// <summary>Effective degrees of freedom of u, 1 or more; infinite unless told otherwise.</summary>
    public double DegreesOfFreedom { get; init; } = double.PositiveInfinity;

    /// <summary>Coverage factor k in U = k·u, above 0; 2 unless told otherwise.</summary>
    public double CoverageFactor { get; init; } = 2;

    /// <summary>For a colour difference: the reference it was taken from, by <see cref="ColourReference.Name"/>; <see langword="null"/> for the method's reference colour.</summary>
    public string? ReferenceName { get; init; }

    /// <summary>U = k·u; <see langword="null"/> where u is unknown.</summary>
    public double? ExpandedUncertainty => CoverageFactor * StandardUncertainty;

    /// <summary>From the result of the propagation of uncertainty.</summary>
    /// <param name="uncertainty">The result.</param>
    public static MeasuredQuantity Of(MeasurandUncertainty uncertainty)
    {
        ArgumentNullException.ThrowIfNull(uncertainty);
        return new MeasuredQuantity(uncertainty.Measurand, uncertainty.Value)
        {
            StandardUncertainty = uncertainty.StandardUncertainty,
            DegreesOfFreedom = uncertainty.EffectiveDegreesOfFreedom,
            CoverageFactor = uncertainty.CoverageFactor,
        };
    }
}
