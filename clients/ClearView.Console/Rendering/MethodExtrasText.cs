using ClearView.V1;

namespace ClearView.Console.Rendering;

/// <summary>Names the optional choices of a method.</summary>
internal static class MethodExtrasText
{
    /// <summary>One line per choice that was made.</summary>
    public static IEnumerable<(string Label, string Text)> Lines(Method method)
    {
        if (method.ReferenceColour is { } reference)
        {
            yield return ("Reference colour", Colour(reference) + Factors(method.DifferenceFactors));
        }
        if (method.Metamerism is { } metamerism)
        {
            yield return ("Metamerism", $"{MethodText.Pair(metamerism.TestLight)}, reference {Colour(metamerism.ReferenceColour)}");
        }
        if (method.HasInitialYellownessIndex)
        {
            yield return ("Initial yellowness", NumberText.Plain(method.InitialYellownessIndex));
        }
        if (method.Bands.Count > 0)
        {
            yield return ("Own bands", string.Join(", ", method.Bands.Select(band => $"{NumberText.Plain(band.FromNm)}-{NumberText.Plain(band.ToNm)} nm")));
        }
        if (method.HasLightBarrierLimitPercent)
        {
            yield return ("Light-barrier limit", $"{NumberText.Plain(method.LightBarrierLimitPercent)} % over 290-450 nm");
        }
        if (method.ReferenceThickness is { } thickness)
        {
            var index = thickness.IndexCase switch
            {
                ReferenceThickness.IndexOneofCase.Resin => $"resin {thickness.Resin}",
                ReferenceThickness.IndexOneofCase.RefractiveIndex => $"refractive index {NumberText.Plain(thickness.RefractiveIndex)}",
                _ => "refractive index by a table of its own",
            };
            yield return ("Reference thickness", $"{NumberText.Plain(thickness.ThicknessUm)} µm, {index}");
        }
        if (method.Uncertainty is { } uncertainty)
        {
            yield return ("Uncertainty sources", Errors(uncertainty));
        }
    }

    private static string Colour(CielabColour colour) =>
        $"L* {NumberText.Plain(colour.LStar)}, a* {NumberText.Plain(colour.AStar)}, b* {NumberText.Plain(colour.BStar)}";

    private static string Factors(DifferenceFactors? factors) => factors is null
        ? ""
        : $"; kL {NumberText.Plain(factors.Lightness)}, kC {NumberText.Plain(factors.Chroma)}, kH {NumberText.Plain(factors.Hue)}, "
            + $"CMC({NumberText.Plain(factors.CmcLightness)}:{NumberText.Plain(factors.CmcChroma)})";

    private static string Errors(UncertaintyInputs inputs)
    {
        (string Name, double Value, string Unit)[] sources =
        [
            ("repeatability", inputs.RepeatabilityPercent, "%"),
            ("zero line", inputs.ZeroOffsetPercent, "%"),
            ("drift of the 100 % line", inputs.HundredLineDriftPercent, "%"),
            ("linearity", inputs.LinearityPercent, "%"),
            ("wavelength", inputs.WavelengthShiftNm, "nm"),
            ("stray light", inputs.StrayLightPercent, "%"),
            ("bandpass", inputs.BandpassNm, "nm"),
        ];
        var parts = sources.Where(source => source.Value > 0).Select(source => $"{source.Name} {NumberText.Plain(source.Value)} {source.Unit}").ToList();
        if (inputs.RepeatabilityByWavelengthPercent.Count > 0)
        {
            parts.Insert(0, "repeatability by wavelength");
        }
        // The repeatability stands first where it is stated at all.
        if (inputs.HasRepeatabilityReadingCount && (inputs.RepeatabilityPercent > 0 || inputs.RepeatabilityByWavelengthPercent.Count > 0))
        {
            parts[0] += $" from {NumberText.Plain(inputs.RepeatabilityReadingCount)} readings";
        }
        return $"{string.Join(", ", parts)} (standard uncertainties); coverage {NumberText.Plain(inputs.CoveragePercent)} %"
            + (inputs.MonteCarlo is { } run ? $"; Monte Carlo with seed {NumberText.Plain(run.Seed)}" : "");
    }
}
