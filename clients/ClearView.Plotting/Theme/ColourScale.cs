using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;

using ScottPlot;

namespace ClearView.Plotting.Theme;

/// <summary>The colour scale of heat maps: light yellow at the lower end, blue at the upper.</summary>
/// <remarks>
/// A straight line in CIELAB (CIE 15): equal steps of a value are equal steps of colour, and lightness alone falls evenly, so that
/// grey print keeps the scale. The dark end stays light enough for black strokes to be seen on it.
/// </remarks>
internal static class ColourScale
{
    /// <summary>Number of colours, a count.</summary>
    public const int StepCount = 128;

    /// <summary>L* at the lower end.</summary>
    public const double LightestL = 96;

    /// <summary>L* at the upper end.</summary>
    public const double DarkestL = 42;

    private const double LightA = -6;
    private const double DarkA = 6;
    private const double LightB = 28;
    private const double DarkB = -42;

    private static readonly ImmutableArray<Color> Steps = [.. Enumerable.Range(0, StepCount).Select(i => Colour((double)i / (StepCount - 1)))];

    /// <summary>The colour at a fraction of the scale; what lies outside takes that of the nearer end.</summary>
    public static Color At(double fraction) =>
        Steps[double.IsNaN(fraction) ? 0 : (int)Math.Round(Math.Clamp(fraction, 0, 1) * (StepCount - 1))];

    /// <summary>The screen colour, with whether a screen can show it.</summary>
    internal static ScreenColour Screen(double fraction)
    {
        Tristimulus white = WhitePoint.Of(LightAndObserver.D65Degree2);
        var colour = new CieLab(Between(LightestL, DarkestL, fraction), Between(LightA, DarkA, fraction), Between(LightB, DarkB, fraction));
        return ScreenColour.From(colour.ToTristimulus(white), white);
    }

    private static double Between(double from, double to, double fraction) => from + (fraction * (to - from));

    private static Color Colour(double fraction)
    {
        ScreenColour screen = Screen(fraction);
        return new Color(screen.Red, screen.Green, screen.Blue);
    }
}
