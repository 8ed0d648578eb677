using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Console.Rendering;

/// <summary>Names a method in full.</summary>
internal static class MethodText
{
    /// <summary>The method, one line per choice.</summary>
    public static ImmutableArray<(string Label, string Text)> Lines(Method method)
    {
        var yellowness = method.YellownessIndices.Select(index => index switch
        {
            YellownessIndex.AstmE313 => $"ASTM E313 with {Pair(method.Colour)}",
            YellownessIndex.AstmD1925 => "ASTM D1925 (withdrawn) with illuminant C, 2° observer",
            YellownessIndex.Iso17223 => $"ISO 17223 with {Pair(method.Colour)}",
            _ => index.ToString(),
        });
        List<(string Label, string Text)> lines =
        [
            ("Haze, transmittance", $"{Standard(method.HazeStandard)}, {Pair(method.Luminous)}"),
            ("Colour", Pair(method.Colour)),
            ("Yellowness", method.YellownessIndices.Count > 0 ? string.Join("; ", yellowness) : "not asked for"),
        ];
        lines.AddRange(MethodExtrasText.Lines(method));
        return [.. lines];
    }

    /// <summary>A method's name, for example "line-3, version 2".</summary>
    public static string Name(MethodName name) => name.Version > 0 ? $"{name.Name}, version {NumberText.Plain(name.Version)}" : name.Name;

    /// <summary>A pair, for example "illuminant D65, 10° observer".</summary>
    public static string Pair(LightAndObserver pair) =>
        $"{(pair.SpectralPower is null ? "illuminant" : "own lamp")} {pair.Illuminant}, {Observer(pair.Observer)} observer";

    /// <summary>A pair in short, for example "D65/10°".</summary>
    public static string ShortPair(LightAndObserver? pair) => pair is null
        ? ""
        : $"{(pair.SpectralPower is null ? pair.Illuminant : "lamp")}/{Observer(pair.Observer)}";

    /// <summary>A standard in short, as it fits beside a value; the method above says it in full.</summary>
    public static string ShortStandard(string standard) => standard
        .Replace(" procedure ", " proc. ", StringComparison.Ordinal)
        .Replace(" over ", " ", StringComparison.Ordinal);

    private static string Observer(Observer observer) => observer switch
    {
        V1.Observer.Cie19312Deg => "2°",
        V1.Observer.Cie196410Deg => "10°",
        _ => observer.ToString(),
    };

    private static string Standard(HazeStandard standard) => standard switch
    {
        HazeStandard.AstmD1003ProcedureA => "ASTM D1003 procedure A (hazemeter)",
        HazeStandard.AstmD1003ProcedureB => "ASTM D1003 procedure B (spectrophotometer)",
        HazeStandard.Iso14782Iso134681 => "ISO 14782 with ISO 13468-1",
        HazeStandard.Iso14782Iso134682 => "ISO 14782 with ISO 13468-2",
        _ => standard.ToString(),
    };
}
