using System.Collections.Immutable;

using ClearView.Plotting.Model;

namespace ClearView.Plotting.Theme;

/// <summary>Looks that differ in shape before they differ in colour.</summary>
internal static class SeriesLooks
{
    private static readonly ImmutableArray<MarkKind> Shapes =
    [
        MarkKind.FilledCircle,
        MarkKind.OpenSquare,
        MarkKind.FilledTriangle,
        MarkKind.OpenDiamond,
        MarkKind.Cross,
        MarkKind.OpenCircle,
        MarkKind.FilledSquare,
        MarkKind.OpenTriangleDown,
        MarkKind.FilledDiamond,
        MarkKind.Star,
        MarkKind.OpenTriangle,
        MarkKind.FilledTriangleDown,
        MarkKind.CrossedCircle,
    ];

    private static readonly ImmutableArray<Ink> Inks =
        [Ink.Blue, Ink.Vermilion, Ink.Green, Ink.Purple, Ink.Black, Ink.Ochre];

    /// <summary>How many series can be told apart by their marks.</summary>
    public static int MarkCount => Shapes.Length;

    /// <summary>Marks without a line; <paramref name="index"/> below <see cref="MarkCount"/>.</summary>
    public static SeriesLook Marks(int index) =>
        new(LineKind.None, Shapes[index], Inks[index % Inks.Length]);
}
