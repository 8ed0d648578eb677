using ClearView.Plotting.Model;

using ScottPlot;

namespace ClearView.Plotting.Theme;

/// <summary>Sizes and colours of a chart in a report. Lengths are points; the picture has <see cref="Scale"/> pixels to each.</summary>
internal static class ReportTheme
{
    public const float WidthPt = 800;
    public const float Scale = 2;
    public const float MarginPt = 16;
    public const float TitlePt = 18;
    public const float SubtitlePt = 13;
    public const float AxisLabelPt = 13;
    public const float TickLabelPt = 12;
    public const float LegendPt = 12;
    public const float NotePt = 11;
    public const float AnnotationPt = 11.5f;

    public static readonly Color Text = Color.FromHex("#1A1A1A");
    public static readonly Color QuietText = Color.FromHex("#4A4A4A");
    public static readonly Color Frame = Color.FromHex("#333333");
    public static readonly Color GridLine = Color.FromHex("#DDDDDD");
    public static readonly Color BandFill = Color.FromHex("#F0F0F0");
    public static readonly Color Paper = Colors.White;

    /// <summary>Colours that colour-blind readers tell apart, of different lightness where they can be.</summary>
    public static Color Of(Ink ink) => ink switch
    {
        Ink.Black => Color.FromHex("#111111"),
        Ink.Blue => Color.FromHex("#0B4F8A"),
        Ink.Vermilion => Color.FromHex("#C8470A"),
        Ink.Green => Color.FromHex("#00855F"),
        Ink.Purple => Color.FromHex("#8A3F78"),
        Ink.Ochre => Color.FromHex("#A87400"),
        Ink.Grey => Color.FromHex("#7A7A7A"),
        _ => throw new ArgumentOutOfRangeException(nameof(ink), ink, "This ink has no colour."),
    };

    /// <summary>Drawn and skipped lengths in turn, points; none for an unbroken line.</summary>
    public static float[] Dashes(LineKind line) => line switch
    {
        LineKind.None or LineKind.Solid => [],
        LineKind.Dashed => [9, 4],
        LineKind.Dotted => [2, 3],
        LineKind.DashDotted => [10, 3, 2, 3],
        _ => throw new ArgumentOutOfRangeException(nameof(line), line, "This line has no pattern."),
    };

    public static MarkerShape Of(MarkKind mark) => mark switch
    {
        MarkKind.None => MarkerShape.None,
        MarkKind.FilledCircle => MarkerShape.FilledCircle,
        MarkKind.OpenSquare => MarkerShape.OpenSquare,
        MarkKind.FilledTriangle => MarkerShape.FilledTriangleUp,
        MarkKind.OpenDiamond => MarkerShape.OpenDiamond,
        MarkKind.Cross => MarkerShape.Cross,
        MarkKind.OpenCircle => MarkerShape.OpenCircle,
        MarkKind.FilledSquare => MarkerShape.FilledSquare,
        MarkKind.OpenTriangleDown => MarkerShape.OpenTriangleDown,
        MarkKind.FilledDiamond => MarkerShape.FilledDiamond,
        MarkKind.Star => MarkerShape.Asterisk,
        MarkKind.OpenTriangle => MarkerShape.OpenTriangleUp,
        MarkKind.FilledTriangleDown => MarkerShape.FilledTriangleDown,
        MarkKind.CrossedCircle => MarkerShape.OpenCircleWithCross,
        MarkKind.DiagonalCross => MarkerShape.Eks,
        _ => throw new ArgumentOutOfRangeException(nameof(mark), mark, "This mark has no shape."),
    };
}
