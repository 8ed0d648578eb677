using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Plotting.Commands;

/// <summary>Methods under the same short names as in the console.</summary>
internal static class MethodChoice
{
    /// <summary>The names.</summary>
    public static ImmutableArray<string> Names { get; } = ["astm", "astm-hazemeter", "iso"];

    /// <summary>The method of one of the <see cref="Names"/>.</summary>
    public static Method Find(string name) => name switch
    {
        "astm" => Create(HazeStandard.AstmD1003ProcedureB, "C"),
        "astm-hazemeter" => Create(HazeStandard.AstmD1003ProcedureA, "C"),
        "iso" => Create(HazeStandard.Iso14782Iso134682, "D65"),
        _ => throw new ArgumentOutOfRangeException(nameof(name), name, $"There are {string.Join(", ", Names)}."),
    };

    private static Method Create(HazeStandard standard, string luminousIlluminant) => new()
    {
        HazeStandard = standard,
        Luminous = new LightAndObserver { Illuminant = luminousIlluminant, Observer = Observer.Cie19312Deg },
        Colour = new LightAndObserver { Illuminant = "D65", Observer = Observer.Cie196410Deg },
        YellownessIndices = { YellownessIndex.AstmE313 },
    };
}
