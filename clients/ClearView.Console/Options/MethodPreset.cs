using System.Collections.Immutable;

using ClearView.V1;

namespace ClearView.Console.Options;

/// <summary>A method under one name, so that the command line stays short. What it stands for is printed with every result.</summary>
/// <param name="Name">Name on the command line.</param>
/// <param name="Meaning">What it stands for, in a line.</param>
/// <param name="Method">The method.</param>
internal sealed record MethodPreset(string Name, string Meaning, Method Method)
{
    /// <summary>Every preset.</summary>
    public static ImmutableArray<MethodPreset> All { get; } =
    [
        new("astm", "ASTM D1003 procedure B with C/2°, colour D65/10°, yellowness E313",
            Build(HazeStandard.AstmD1003ProcedureB, Pairs.C2)),
        new("astm-hazemeter", "ASTM D1003 procedure A with C/2°, colour D65/10°, yellowness E313",
            Build(HazeStandard.AstmD1003ProcedureA, Pairs.C2)),
        new("iso", "ISO 14782 and ISO 13468-2 with D65/2°, colour D65/10°, yellowness E313",
            Build(HazeStandard.Iso14782Iso134682, Pairs.D65Deg2)),
    ];

    /// <summary>The preset of a name, if there is one.</summary>
    public static MethodPreset? Find(string name) => All.FirstOrDefault(preset => preset.Name == name);

    private static Method Build(HazeStandard standard, LightAndObserver luminous) => new()
    {
        HazeStandard = standard,
        Luminous = luminous.Clone(),
        Colour = Pairs.D65Deg10.Clone(),
        YellownessIndices = { YellownessIndex.AstmE313 },
    };
}
