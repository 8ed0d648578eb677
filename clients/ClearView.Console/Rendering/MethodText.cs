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
            _ => index.ToString(),
        });
        return
        [
            ("Haze, transmittance", $"{Standard(method.HazeStandard)}, {Pair(method.Luminous)}"),
            ("Colour", Pair(method.Colour)),
            ("Yellowness", method.YellownessIndices.Count > 0 ? string.Join("; ", yellowness) : "not asked for"),
        ];
    }

    /// <summary>A pair, for example "illuminant D65, 10° observer".</summary>
    public static string Pair(LightAndObserver pair) => $"illuminant {pair.Illuminant}, {Observer(pair.Observer)} observer";

    /// <summary>A pair in short, for example "D65/10°".</summary>
    public static string ShortPair(LightAndObserver? pair) => pair is null ? "" : $"{pair.Illuminant}/{Observer(pair.Observer)}";

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
