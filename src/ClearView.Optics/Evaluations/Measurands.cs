using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Evaluations;

/// <summary>The registry: one entry per measurand.</summary>
public static class Measurands
{
    private const string Colorimetry = "CIE 15, ASTM E308";

    /// <summary>Total luminous transmittance, %.</summary>
    public static Measurand LuminousTransmittance { get; } = new(
        "luminous_transmittance", "Luminous transmittance", "τt", "%", e => e.LuminousTransmittance.Percent, Transmittance);

    /// <summary>Diffuse luminous transmittance, %.</summary>
    public static Measurand DiffuseLuminousTransmittance { get; } = new(
        "diffuse_luminous_transmittance", "Diffuse luminous transmittance", "τd", "%", e => e.DiffuseLuminousTransmittance?.Percent, HazeBasis);

    /// <summary>Regular luminous transmittance, %.</summary>
    public static Measurand RegularLuminousTransmittance { get; } = new(
        "regular_luminous_transmittance", "Regular luminous transmittance", "τr", "%", e => e.RegularLuminousTransmittance?.Percent, HazeBasis);

    /// <summary>Haze, %.</summary>
    public static Measurand Haze { get; } = new("haze", "Haze", "H", "%", e => e.Haze?.Percent, HazeBasis);

    /// <summary>Tristimulus value X.</summary>
    public static Measurand TristimulusX { get; } = OfColour("tristimulus_x", "Tristimulus X", "X", "", c => c.Tristimulus.X);

    /// <summary>Tristimulus value Y.</summary>
    public static Measurand TristimulusY { get; } = OfColour("tristimulus_y", "Tristimulus Y", "Y", "", c => c.Tristimulus.Y);

    /// <summary>Tristimulus value Z.</summary>
    public static Measurand TristimulusZ { get; } = OfColour("tristimulus_z", "Tristimulus Z", "Z", "", c => c.Tristimulus.Z);

    /// <summary>Chromaticity x.</summary>
    public static Measurand ChromaticityX { get; } =
        OfColour("chromaticity_x", "Chromaticity x", "x", "", c => c.Tristimulus.ToChromaticity().X);

    /// <summary>Chromaticity y.</summary>
    public static Measurand ChromaticityY { get; } =
        OfColour("chromaticity_y", "Chromaticity y", "y", "", c => c.Tristimulus.ToChromaticity().Y);

    /// <summary>Chromaticity u′.</summary>
    public static Measurand ChromaticityUPrime { get; } =
        OfColour("chromaticity_u_prime", "Chromaticity u′", "u′", "", c => c.Tristimulus.ToUniformChromaticity().U);

    /// <summary>Chromaticity v′.</summary>
    public static Measurand ChromaticityVPrime { get; } =
        OfColour("chromaticity_v_prime", "Chromaticity v′", "v′", "", c => c.Tristimulus.ToUniformChromaticity().V);

    /// <summary>CIELAB L*.</summary>
    public static Measurand CielabL { get; } = OfLab("cielab_l", "CIELAB L*", "L*", "", c => c.Lab.L);

    /// <summary>CIELAB a*.</summary>
    public static Measurand CielabA { get; } = OfLab("cielab_a", "CIELAB a*", "a*", "", c => c.Lab.A);

    /// <summary>CIELAB b*.</summary>
    public static Measurand CielabB { get; } = OfLab("cielab_b", "CIELAB b*", "b*", "", c => c.Lab.B);

    /// <summary>CIELAB chroma C*ab.</summary>
    public static Measurand CielabChroma { get; } = OfLab("cielab_chroma", "CIELAB chroma", "C*ab", "", c => c.Lab.Chroma);

    /// <summary>CIELAB hue angle, degrees.</summary>
    public static Measurand CielabHue { get; } = OfLab("cielab_hue", "CIELAB hue angle", "hab", "°", c => c.Lab.HueDegrees);

    /// <summary>Dominant wavelength, nm; absent for purples.</summary>
    public static Measurand DominantWavelength { get; } = OfColour(
        "dominant_wavelength", "Dominant wavelength", "λd", "nm", c => c.DominantWavelength is { IsComplementary: false } d ? d.WavelengthNm : null);

    /// <summary>Complementary wavelength, nm; only for purples.</summary>
    public static Measurand ComplementaryWavelength { get; } = OfColour(
        "complementary_wavelength", "Complementary wavelength", "λc", "nm", c => c.DominantWavelength is { IsComplementary: true } d ? d.WavelengthNm : null);

    /// <summary>Excitation purity, %.</summary>
    public static Measurand ExcitationPurity { get; } = OfColour(
        "excitation_purity", "Excitation purity", "pe", "%", c => c.DominantWavelength?.ExcitationPurity * 100);

    /// <summary>Yellowness index ASTM E313.</summary>
    public static Measurand YellownessIndexE313 { get; } = OfYellowness("yellowness_index_e313", "Yellowness index E313", e => e.YellownessE313);

    /// <summary>Yellowness index ASTM D1925 (withdrawn).</summary>
    public static Measurand YellownessIndexD1925 { get; } = OfYellowness("yellowness_index_d1925", "Yellowness index D1925", e => e.YellownessD1925);

    /// <summary>Every measurand, in the order in which they are shown.</summary>
    public static ImmutableArray<Measurand> All { get; } =
    [
        LuminousTransmittance, DiffuseLuminousTransmittance, RegularLuminousTransmittance, Haze,
        TristimulusX, TristimulusY, TristimulusZ, ChromaticityX, ChromaticityY, ChromaticityUPrime, ChromaticityVPrime,
        CielabL, CielabA, CielabB, CielabChroma, CielabHue,
        DominantWavelength, ComplementaryWavelength, ExcitationPurity, YellownessIndexE313, YellownessIndexD1925,
    ];

    private static Measurand OfColour(string id, string name, string symbol, string unit, Func<TransmittedColour, double?> read) =>
        new(id, name, symbol, unit, e => e.Colour is { } colour ? read(colour) : null, e => Basis(e, Colorimetry, e.Method.Colour));

    private static Measurand OfLab(string id, string name, string symbol, string unit, Func<TransmittedColour, double?> read) =>
        new(id, name, symbol, unit, e => e.Colour is { } colour ? read(colour) : null, e => Basis(e, "ISO/CIE 11664-4", e.Method.Colour));

    private static Measurand OfYellowness(string id, string name, Func<Evaluation, YellownessIndex?> read) =>
        new(id, name, "YI", "", e => read(e)?.Value, e => Basis(e, read(e)!.Value.Standard, read(e)!.Value.LightAndObserver));

    private static MeasuredBasis Transmittance(Evaluation e) => Basis(e, e.Method.HazeStandard.TransmittanceName, e.Method.Luminous);

    private static MeasuredBasis HazeBasis(Evaluation e) => Basis(e, e.Method.HazeStandard.HazeName, e.Method.Luminous);

    private static MeasuredBasis Basis(Evaluation e, string standard, LightAndObserver light) =>
        new(standard, light, e.Weighting, e.Scans?.Grid.IntervalNm);
}
