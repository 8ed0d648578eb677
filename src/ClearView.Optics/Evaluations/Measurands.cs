using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;
using ClearView.Optics.Transmission;
using ClearView.Optics.Transmission.Bands;
using ClearView.Optics.Uncertainty;

namespace ClearView.Optics.Evaluations;

/// <summary>The registry: one entry per measurand.</summary>
public static class Measurands
{
    private const string Colorimetry = "CIE 15, ASTM E308";

    private const string Spectral = "spectral scans";

    private const string Diffuse = "diffuse transmittance";

    /// <summary>Total luminous transmittance, %.</summary>
    public static Measurand LuminousTransmittance { get; } = new(
        "luminous_transmittance", "Luminous transmittance", "τt", "%", e => e.LuminousTransmittance.Percent, Transmittance, d => d.Luminous, "");

    /// <summary>Diffuse luminous transmittance, %.</summary>
    public static Measurand DiffuseLuminousTransmittance { get; } = new(
        "diffuse_luminous_transmittance", "Diffuse luminous transmittance", "τd", "%", e => e.DiffuseLuminousTransmittance?.Percent, HazeBasis, d => d.Diffuse, Diffuse);

    /// <summary>Regular luminous transmittance, %.</summary>
    public static Measurand RegularLuminousTransmittance { get; } = new(
        "regular_luminous_transmittance", "Regular luminous transmittance", "τr", "%", e => e.RegularLuminousTransmittance?.Percent, HazeBasis, d => d.Luminous - d.Diffuse, Diffuse);

    /// <summary>Haze, %.</summary>
    public static Measurand Haze { get; } = new("haze", "Haze", "H", "%", e => e.Haze?.Percent, HazeBasis, d => d.Haze, Diffuse);

    /// <summary>Tristimulus value X.</summary>
    public static Measurand TristimulusX { get; } = OfColour("tristimulus_x", "Tristimulus X", "X", "", c => c.Tristimulus.X, d => d.X);

    /// <summary>Tristimulus value Y.</summary>
    public static Measurand TristimulusY { get; } = OfColour("tristimulus_y", "Tristimulus Y", "Y", "", c => c.Tristimulus.Y, d => d.Y);

    /// <summary>Tristimulus value Z.</summary>
    public static Measurand TristimulusZ { get; } = OfColour("tristimulus_z", "Tristimulus Z", "Z", "", c => c.Tristimulus.Z, d => d.Z);

    /// <summary>Chromaticity x.</summary>
    public static Measurand ChromaticityX { get; } =
        OfColour("chromaticity_x", "Chromaticity x", "x", "", c => c.Tristimulus.ToChromaticity().X, d => d.ChromaticityX);

    /// <summary>Chromaticity y.</summary>
    public static Measurand ChromaticityY { get; } =
        OfColour("chromaticity_y", "Chromaticity y", "y", "", c => c.Tristimulus.ToChromaticity().Y, d => d.ChromaticityY);

    /// <summary>Chromaticity u′.</summary>
    public static Measurand ChromaticityUPrime { get; } =
        OfColour("chromaticity_u_prime", "Chromaticity u′", "u′", "", c => c.Tristimulus.ToUniformChromaticity().U, d => d.UPrime);

    /// <summary>Chromaticity v′.</summary>
    public static Measurand ChromaticityVPrime { get; } =
        OfColour("chromaticity_v_prime", "Chromaticity v′", "v′", "", c => c.Tristimulus.ToUniformChromaticity().V, d => d.VPrime);

    /// <summary>CIELAB L*.</summary>
    public static Measurand CielabL { get; } = OfLab("cielab_l", "CIELAB L*", "L*", "", c => c.Lab.L, d => d.L);

    /// <summary>CIELAB a*.</summary>
    public static Measurand CielabA { get; } = OfLab("cielab_a", "CIELAB a*", "a*", "", c => c.Lab.A, d => d.A);

    /// <summary>CIELAB b*.</summary>
    public static Measurand CielabB { get; } = OfLab("cielab_b", "CIELAB b*", "b*", "", c => c.Lab.B, d => d.B);

    /// <summary>CIELAB chroma C*ab.</summary>
    public static Measurand CielabChroma { get; } = OfLab("cielab_chroma", "CIELAB chroma", "C*ab", "", c => c.Lab.Chroma, d => d.Chroma);

    /// <summary>CIELAB hue angle, degrees.</summary>
    public static Measurand CielabHue { get; } = OfLab("cielab_hue", "CIELAB hue angle", "hab", "°", c => c.Lab.HueDegrees, d => d.HueDegrees);

    /// <summary>CIELUV u*.</summary>
    public static Measurand CieluvU { get; } = OfLuv("cieluv_u", "CIELUV u*", "u*", "", c => c.U, d => d.LuvU);

    /// <summary>CIELUV v*.</summary>
    public static Measurand CieluvV { get; } = OfLuv("cieluv_v", "CIELUV v*", "v*", "", c => c.V, d => d.LuvV);

    /// <summary>CIELUV chroma C*uv.</summary>
    public static Measurand CieluvChroma { get; } = OfLuv("cieluv_chroma", "CIELUV chroma", "C*uv", "", c => c.Chroma, d => d.LuvChroma);

    /// <summary>CIELUV hue angle, degrees.</summary>
    public static Measurand CieluvHue { get; } = OfLuv("cieluv_hue", "CIELUV hue angle", "huv", "°", c => c.HueDegrees, d => d.LuvHueDegrees);

    /// <summary>Dominant wavelength, nm; absent for purples.</summary>
    public static Measurand DominantWavelength { get; } = OfColour(
        "dominant_wavelength", "Dominant wavelength", "λd", "nm", c => c.DominantWavelength is { IsComplementary: false } w ? w.WavelengthNm : null, d => d.Wavelength, "spectral scans; a colour other than purple and neutral");

    /// <summary>Complementary wavelength, nm; only for purples.</summary>
    public static Measurand ComplementaryWavelength { get; } = OfColour(
        "complementary_wavelength", "Complementary wavelength", "λc", "nm", c => c.DominantWavelength is { IsComplementary: true } w ? w.WavelengthNm : null, d => d.Wavelength, "spectral scans; a purple");

    /// <summary>Excitation purity, %.</summary>
    public static Measurand ExcitationPurity { get; } = OfColour(
        "excitation_purity", "Excitation purity", "pe", "%", c => c.DominantWavelength?.ExcitationPurity * 100, d => d.PurityPercent, "spectral scans; a colour other than neutral");

    /// <summary>Yellowness index ASTM E313.</summary>
    public static Measurand YellownessIndexE313 { get; } = OfYellowness("yellowness_index_e313", "Yellowness index E313", e => e.YellownessE313, d => d.YellownessE313, "ASTM E313 among the method's yellowness indices");

    /// <summary>Yellowness index ISO 17223.</summary>
    public static Measurand YellownessIndexIso17223 { get; } = OfYellowness(
        "yellowness_index_iso17223", "Yellowness index ISO 17223", e => e.YellownessIso17223, d => d.YellownessIso17223, "ISO 17223 among the method's yellowness indices");

    /// <summary>Yellowness index ASTM D1925 (withdrawn).</summary>
    public static Measurand YellownessIndexD1925 { get; } = OfYellowness("yellowness_index_d1925", "Yellowness index D1925", e => e.YellownessD1925, d => d.YellownessD1925, "ASTM D1925 among the method's yellowness indices");

    /// <summary>ΔL* against the method's reference colour.</summary>
    public static Measurand DeltaL { get; } = OfDifference("delta_l", "Difference in lightness", "ΔL*", "ISO/CIE 11664-4", (c, r) => c.L - r.L, (d, r) => d.L - r.L);

    /// <summary>Δa* against the method's reference colour.</summary>
    public static Measurand DeltaA { get; } = OfDifference("delta_a", "Difference in a*", "Δa*", "ISO/CIE 11664-4", (c, r) => c.A - r.A, (d, r) => d.A - r.A);

    /// <summary>Δb* against the method's reference colour.</summary>
    public static Measurand DeltaB { get; } = OfDifference("delta_b", "Difference in b*", "Δb*", "ISO/CIE 11664-4", (c, r) => c.B - r.B, (d, r) => d.B - r.B);

    /// <summary>ΔC*ab against the method's reference colour.</summary>
    public static Measurand DeltaChroma { get; } = OfDifference(
        "delta_chroma", "Difference in chroma", "ΔC*ab", "ISO/CIE 11664-4", (c, r) => c.Chroma - r.Chroma, (d, r) => d.Chroma - r.Chroma);

    /// <summary>ΔH*ab against the method's reference colour.</summary>
    public static Measurand DeltaHue { get; } = OfDifference(
        "delta_hue", "Difference in hue", "ΔH*ab", "ISO/CIE 11664-4", (c, r) => ColourShift.Between(r, c).DeltaH, DualDifference.DeltaHue);

    /// <summary>ΔE*ab against the method's reference colour.</summary>
    public static Measurand DeltaEab { get; } = OfDifference(
        "delta_e_ab", "Colour difference ΔE*ab", "ΔE*ab", "ISO/CIE 11664-4", (c, r) => ColourDifference.DeltaEab(r, c), DualDifference.DeltaEab);

    /// <summary>CIEDE2000 against the method's reference colour.</summary>
    public static Measurand DeltaE2000 { get; } = OfWeightedDifference(
        "delta_e_2000",
        "Colour difference CIEDE2000",
        "ΔE00",
        f => $"ISO/CIE 11664-6{f.Suffix}",
        (c, r, f) => DualDifference.Ciede2000(DualLab.Constant(r), c, f.Lightness, f.Chroma, f.Hue));

    /// <summary>CIE94 against the method's reference colour, which sets the weights.</summary>
    public static Measurand DeltaE94 { get; } = OfWeightedDifference(
        "delta_e_94", "Colour difference CIE94", "ΔE94", f => $"CIE 116{f.Suffix}", (c, r, f) => DualDifference.Cie94(r, c, Cie94Factors.From(f)));

    /// <summary>CMC(l:c) against the method's reference colour, which sets the weights.</summary>
    public static Measurand DeltaECmc { get; } = OfWeightedDifference(
        "delta_e_cmc", "Colour difference CMC(l:c)", "ΔEcmc", f => $"ISO 105-J03, {f.CmcName}", (c, r, f) => DualDifference.Cmc(r, c, f.CmcLightness, f.CmcChroma));

    /// <summary>Special metamerism index, change in illuminant, against the method's reference colour.</summary>
    public static Measurand MetamerismIndex { get; } = new(
        "metamerism_index",
        "Special metamerism index, change in illuminant",
        "Milm",
        "",
        e => e.Scans is { } scans ? SpectralQuantities.MetamerismIndex(scans, e.Method)?.Value : null,
        e => Basis(e, $"CIE 15, ΔE*ab, test light {e.Method.Metamerism!.TestLight}", e.Method.Colour),
        null,
        $"{Spectral}; a reference colour and a metamerism test light in the method",
        SpectralQuantities.MetamerismIndex);

    /// <summary>Change of the ASTM E313 index against the method's initial one.</summary>
    public static Measurand ChangeInYellowness { get; } = OfYellownessChange("e313", "E313", "ASTM E313", e => e.YellownessE313, d => d.YellownessE313);

    /// <summary>Change of the ISO 17223 index against the method's initial one.</summary>
    public static Measurand ChangeInYellownessIso17223 { get; } = OfYellownessChange(
        "iso17223", "ISO 17223", "ISO 17223", e => e.YellownessIso17223, d => d.YellownessIso17223);

    /// <summary>Exponent n of spectral haze ∝ λ^−n over 400-700 nm.</summary>
    public static Measurand ScatteringExponent { get; } = OfSpectrum(
        "scattering_exponent", "Scattering exponent", "n", "", "power-law fit, 400-700 nm", "diffuse transmittance by wavelength, with haze above 0 at five or more within 400-700 nm", SpectralQuantities.ScatteringExponentOf, e => e.Scattering?.Exponent);

    /// <summary>Mean and greatest transmittance over each named band, %.</summary>
    public static ImmutableArray<Measurand> OfNamedBands { get; } = [.. Band.All.SelectMany(band => OfBand(band))];

    /// <summary>Wavelengths at which transmittance first reaches 1, 10 and 50 %, nm.</summary>
    public static ImmutableArray<Measurand> Edges { get; } =
    [
        .. new[] { 1, 10, 50 }.Select(percent => OfSpectrum(
            $"edge_wavelength_{percent}_percent",
            $"Edge wavelength at {percent} %",
            $"λ{percent}",
            "nm",
            "first crossing",
            $"{Spectral} in which transmittance rises through {percent} %",
            scans => SpectralQuantities.Edge(scans, percent / 100.0))),
    ];

    /// <summary>Greatest transmittance between 290 and 450 nm, %: what the light-barrier screen compares with its limit.</summary>
    public static Measurand LightBarrierMaximum { get; } = OfSpectrum(
        "light_barrier_maximum_transmittance",
        "Greatest transmittance 290-450 nm",
        "Tmax",
        "%",
        "light-barrier screen",
        $"{Spectral} over {LightBarrierScreen.Range}",
        scans => SpectralQuantities.BandMaximumPercent(scans, LightBarrierScreen.Range));

    /// <summary>Every measurand, in the order in which they are shown.</summary>
    public static ImmutableArray<Measurand> All { get; } =
    [
        LuminousTransmittance, DiffuseLuminousTransmittance, RegularLuminousTransmittance, Haze,
        TristimulusX, TristimulusY, TristimulusZ, ChromaticityX, ChromaticityY, ChromaticityUPrime, ChromaticityVPrime,
        CielabL, CielabA, CielabB, CielabChroma, CielabHue, CieluvU, CieluvV, CieluvChroma, CieluvHue,
        DominantWavelength, ComplementaryWavelength, ExcitationPurity, YellownessIndexE313, YellownessIndexIso17223, YellownessIndexD1925,
        DeltaL, DeltaA, DeltaB, DeltaChroma, DeltaHue, DeltaEab, DeltaE2000, DeltaE94, DeltaECmc, MetamerismIndex,
        ChangeInYellowness, ChangeInYellownessIso17223,
        ScatteringExponent, .. OfNamedBands, .. Edges, LightBarrierMaximum,
    ];

    /// <summary>Mean and greatest transmittance over a band, %.</summary>
    /// <param name="band">The band.</param>
    public static ImmutableArray<Measurand> OfBand(Band band)
    {
        ArgumentNullException.ThrowIfNull(band);
        string id = band.Id.Replace('-', '_').Replace('.', '_');
        return
        [
            OfSpectrum($"band_mean_transmittance_{id}", $"Mean transmittance, {band.Name}", "T̄", "%", $"mean over {band.Range}", $"{Spectral} over {band.Range}", scans => SpectralQuantities.BandMeanPercent(scans, band)),
            OfSpectrum($"band_maximum_transmittance_{id}", $"Greatest transmittance, {band.Name}", "Tmax", "%", $"greatest over {band.Range}", $"{Spectral} over {band.Range}", scans => SpectralQuantities.BandMaximumPercent(scans, band.Range)),
        ];
    }

    private static Measurand OfColour(string id, string name, string symbol, string unit, Func<TransmittedColour, double?> read, Func<DualReading, Dual> differentiable, string needs = Spectral) =>
        new(id, name, symbol, unit, e => e.Colour is { } colour ? read(colour) : null, e => Basis(e, Colorimetry, e.Method.Colour), differentiable, needs);

    private static Measurand OfLab(string id, string name, string symbol, string unit, Func<TransmittedColour, double?> read, Func<DualReading, Dual> differentiable) =>
        new(id, name, symbol, unit, e => e.Colour is { } colour ? read(colour) : null, e => Basis(e, "ISO/CIE 11664-4", e.Method.Colour), differentiable, Spectral);

    private static Measurand OfLuv(string id, string name, string symbol, string unit, Func<CieLuv, double> read, Func<DualReading, Dual> differentiable) =>
        new(
            id,
            name,
            symbol,
            unit,
            e => e.Colour is { } colour ? read(CieLuv.From(colour.Tristimulus, colour.White)) : null,
            e => Basis(e, "ISO/CIE 11664-5", e.Method.Colour),
            differentiable,
            Spectral);

    private static Measurand OfYellowness(string id, string name, Func<Evaluation, YellownessIndex?> read, Func<DualReading, Dual> differentiable, string asked) =>
        new(id, name, "YI", "", e => read(e)?.Value, e => Basis(e, read(e)!.Value.Standard, read(e)!.Value.LightAndObserver), differentiable, $"{Spectral}; {asked}");

    private static Measurand OfDifference(
        string id, string name, string symbol, string standard, Func<CieLab, CieLab, double> read, Func<DualReading, CieLab, Dual> differentiable) =>
        new(
            id,
            name,
            symbol,
            "",
            e => e.Colour is { } colour && e.Method.ReferenceColour is { } reference ? read(colour.Lab, reference) : null,
            e => Basis(e, standard, e.Method.Colour),
            d => differentiable(d, d.ReferenceColour),
            $"{Spectral}; a reference colour in the method");

    private static Measurand OfWeightedDifference(
        string id, string name, string symbol, Func<DifferenceFactors, string> standard, Func<DualLab, CieLab, DifferenceFactors, Dual> difference) =>
        new(
            id,
            name,
            symbol,
            "",
            e => e.Colour is { } colour && e.Method.ReferenceColour is { } reference
                ? difference(DualLab.Constant(colour.Lab), reference, e.Method.DifferenceFactors).Value
                : null,
            e => Basis(e, standard(e.Method.DifferenceFactors), e.Method.Colour),
            d => difference(d.Lab, d.ReferenceColour, d.Factors),
            $"{Spectral}; a reference colour in the method");

    private static Measurand OfYellownessChange(
        string id, string name, string standard, Func<Evaluation, YellownessIndex?> read, Func<DualReading, Dual> differentiable) => new(
        $"change_in_yellowness_{id}",
        $"Change in yellowness index {name}",
        "ΔYI",
        "",
        e => read(e)?.Value - e.Method.InitialYellownessIndex,
        e => Basis(e, standard, e.Method.Colour),
        d => differentiable(d) - d.InitialYellownessIndex,
        $"{Spectral}; {standard} and an initial yellowness index in the method");

    private static Measurand OfSpectrum(
        string id, string name, string symbol, string unit, string standard, string needs, Func<TransmittanceScans, SpectralGradient?> read, Func<Evaluation, double?>? value = null) =>
        new(
            id,
            name,
            symbol,
            unit,
            value ?? (e => e.Scans is { } scans ? read(scans)?.Value : null),
            e => new MeasuredBasis(standard, null, "none: spectral values as measured", e.Scans?.Grid.IntervalNm),
            null,
            needs,
            (scans, _) => read(scans));

    private static MeasuredBasis Transmittance(Evaluation e) => Basis(e, e.Method.HazeStandard.TransmittanceName, e.Method.Luminous);

    private static MeasuredBasis HazeBasis(Evaluation e) => Basis(e, e.Method.HazeStandard.HazeName, e.Method.Luminous);

    private static MeasuredBasis Basis(Evaluation e, string standard, LightAndObserver light) =>
        new(standard, light, e.Weighting, e.Scans?.Grid.IntervalNm);
}
