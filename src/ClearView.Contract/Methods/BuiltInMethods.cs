using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Contract.Methods;

/// <summary>The methods that are built in, so that a request or a command line stays short. What a name stands for is given with every result.</summary>
public static class BuiltInMethods
{
    /// <summary>Every built-in method.</summary>
    public static ImmutableArray<BuiltInMethod> All { get; } =
    [
        new("astm", "ASTM D1003 procedure B with C/2°, colour D65/10°, yellowness E313",
            Build(HazeStandard.AstmD1003ProcedureB, "C")),
        new("astm-hazemeter", "ASTM D1003 procedure A with C/2°, colour D65/10°, yellowness E313",
            Build(HazeStandard.AstmD1003ProcedureA, "C")),
        new("iso", "ISO 14782 and ISO 13468-2 with D65/2°, colour D65/10°, yellowness E313",
            Build(HazeStandard.Iso14782Iso134682, "D65")),
    ];

    /// <summary>The method of a name, if there is one.</summary>
    /// <param name="name">The name, exactly.</param>
    public static BuiltInMethod? Find(string name) => All.FirstOrDefault(method => method.Name == name);

    private static Method Build(HazeStandard standard, string luminousIlluminant) => new()
    {
        HazeStandard = standard,
        Luminous = new LightAndObserver { Illuminant = luminousIlluminant, Observer = Observer.Cie19312Deg },
        Colour = new LightAndObserver { Illuminant = "D65", Observer = Observer.Cie196410Deg },
        YellownessIndices = { YellownessIndex.AstmE313 },
    };
}
