namespace ClearView.Optics.Evaluations;

/// <summary>Kinds of caveat. The numbers are those of the contract.</summary>
public enum CaveatCode
{
    /// <summary>Haze is above what the chosen standard covers.</summary>
    HazeAboveStandardRange = 1,

    /// <summary>Diffuse transmittance exceeds total transmittance.</summary>
    DiffuseAboveTotal = 2,

    /// <summary>A transmittance lies outside 0-100 %.</summary>
    TransmittanceOutsidePhysicalRange = 3,

    /// <summary>The scan is shorter than 360-780 nm; the end values were held (ASTM E308).</summary>
    RangeExtended = 4,

    /// <summary>Colour of a strongly diffusing specimen depends on the geometry of the sphere and its ports.</summary>
    ColourOfDiffusingSpecimen = 5,

    /// <summary>The illuminant and observer are not those that the chosen standard names.</summary>
    PairNotOfStandard = 6,

    /// <summary>The scan's interval is wider than the 20 nm that ASTM E308 covers.</summary>
    IntervalAboveStandardRange = 7,

    /// <summary>Diffuse transmittance was not measured, so that haze is not given.</summary>
    DiffuseNotMeasured = 8,

    /// <summary>Values given as percent look like fractions.</summary>
    UnitSuspect = 9,

    /// <summary>The standard's procedure expects another kind of instrument than the scans come from.</summary>
    ProcedureMismatch = 10,

    /// <summary>The colour cannot be told from the white point, so that no dominant wavelength is given.</summary>
    Achromatic = 11,

    /// <summary>Luminous transmittance is not above 0, so that haze is undefined.</summary>
    HazeUndefined = 12,

    /// <summary>The withdrawn index is given for comparison with old records only.</summary>
    WithdrawnStandard = 13,
}
