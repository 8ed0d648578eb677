using ClearView.Optics.Evaluations;

namespace ClearView.Quality.Specifications;

/// <summary>Limits on one measurand: its tolerance limits in the words of JCGM 106.</summary>
/// <remarks>A light-barrier screen is an upper limit on <see cref="Measurands.LightBarrierMaximum"/>.</remarks>
public sealed record SpecificationLimit
{
    internal SpecificationLimit(Measurand measurand, double? lower, double? upper, double? target, ColourReference? reference)
    {
        Measurand = measurand;
        Lower = lower;
        Upper = upper;
        Target = target;
        Reference = reference;
    }

    /// <summary>The measurand.</summary>
    public Measurand Measurand { get; }

    /// <summary>Lower limit in the measurand's unit; <see langword="null"/> where there is none. The limit itself conforms.</summary>
    public double? Lower { get; }

    /// <summary>Upper limit in the measurand's unit; <see langword="null"/> where there is none. The limit itself conforms.</summary>
    public double? Upper { get; }

    /// <summary>Target in the measurand's unit; <see langword="null"/> where there is none.</summary>
    public double? Target { get; }

    /// <summary>For a colour difference: the reference it is taken from; <see langword="null"/> where the method's reference colour counts.</summary>
    public ColourReference? Reference { get; }
}
