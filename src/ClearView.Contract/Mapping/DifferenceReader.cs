using ClearView.Contract.Validation;
using ClearView.Optics.Colorimetry;

namespace ClearView.Contract.Mapping;

/// <summary>Reads from the wire what colour differences are taken against, and how.</summary>
internal static class DifferenceReader
{
    private const double GreatestFactor = 10;

    /// <summary>A colour in CIELAB; <see langword="null"/> where none was sent.</summary>
    public static CieLab? ReadColour(V1.CielabColour? wire, string path, Violations violations)
    {
        if (wire is null)
        {
            return null;
        }

        violations.RequireWithin($"{path}.l_star", wire.LStar, -20, 200, "");
        violations.RequireWithin($"{path}.a_star", wire.AStar, -300, 300, "");
        violations.RequireWithin($"{path}.b_star", wire.BStar, -300, 300, "");
        return new CieLab(wire.LStar, wire.AStar, wire.BStar);
    }

    /// <summary>The parametric factors; the usual ones where none were sent or one is at fault.</summary>
    public static DifferenceFactors ReadFactors(V1.DifferenceFactors? wire, string path, Violations violations)
    {
        if (wire is null)
        {
            return DifferenceFactors.Default;
        }

        bool valid = true;
        foreach ((string field, double factor) in new[]
        {
            ("lightness", wire.Lightness),
            ("chroma", wire.Chroma),
            ("hue", wire.Hue),
            ("cmc_lightness", wire.CmcLightness),
            ("cmc_chroma", wire.CmcChroma),
        })
        {
            violations.RequirePositive($"{path}.{field}", factor, GreatestFactor, "");
            valid &= factor is > 0 and <= GreatestFactor;
        }

        return valid
            ? new DifferenceFactors(wire.Lightness, wire.Chroma, wire.Hue, wire.CmcLightness, wire.CmcChroma)
            : DifferenceFactors.Default;
    }

    /// <summary>The second light of a metamerism index; <see langword="null"/> where none was sent or something is at fault.</summary>
    public static MetamerismTest? ReadMetamerism(V1.Method method, LightAndObserver colour, string path, Violations violations)
    {
        if (method.Metamerism is not { } wire)
        {
            return null;
        }

        if (method.ReferenceColour is null)
        {
            violations.Add($"{path}.reference_colour", $"was missing; expected the colour under {colour} that the metamerism index compares with.");
        }

        CieLab? reference = ReadColour(wire.ReferenceColour, $"{path}.metamerism.reference_colour", violations);
        if (reference is null)
        {
            violations.Add($"{path}.metamerism.reference_colour", $"was missing; expected the reference colour under the test light.");
        }

        if (MethodReader.ReadLight(wire.TestLight, $"{path}.metamerism.test_light", violations) is not { } light)
        {
            return null;
        }

        if (light.Observer != colour.Observer)
        {
            violations.Add(
                $"{path}.metamerism.test_light.observer",
                $"was {light.Observer}; expected {colour.Observer}, the observer of the colour pair, since only the illuminant is to change.");
            return null;
        }

        if (light == colour)
        {
            violations.Add($"{path}.metamerism.test_light.illuminant", $"was {light.Illuminant}, that of the colour pair; expected another one.");
            return null;
        }

        return reference is { } underTest ? new MetamerismTest(light, underTest) : null;
    }
}
