using System.Collections.Immutable;

using ClearView.Optics.Colorimetry;

using ScottPlot;

namespace ClearView.Plotting.Theme;

/// <summary>The colour scale of heat maps: from light yellow through green to blue.</summary>
/// <remarks>
/// Two straight lines of equal length in CIELAB (CIE 15), joined in the middle: equal steps of a value are equal steps of colour,
/// and lightness falls evenly, so that grey print keeps the scale. The dark end stays light enough for black strokes to be seen.
/// </remarks>
internal static class ColourScale
{
    /// <summary>Number of colours, a count.</summary>
    public const int StepCount = 128;

    /// <summary>L* at the lower end.</summary>
    public const double LightestL = 95;

    /// <summary>L* at the upper end.</summary>
    public const double DarkestL = 42;

    private static readonly CieLab Light = new(LightestL, -14, 58.5);
    private static readonly CieLab Middle = new((LightestL + DarkestL) / 2, -28, 4);
    private static readonly CieLab Dark = new(DarkestL, 4.2, -40);

    private static readonly ImmutableArray<Color> Steps = [.. Enumerable.Range(0, StepCount).Select(i => Colour((double)i / (StepCount - 1)))];

    /// <summary>The colour at a fraction of the scale; what lies outside takes that of the nearer end.</summary>
    public static Color At(double fraction) =>
        Steps[double.IsNaN(fraction) ? 0 : (int)Math.Round(Math.Clamp(fraction, 0, 1) * (StepCount - 1))];

    /// <summary>The screen colour, with whether a screen can show it.</summary>
    internal static ScreenColour Screen(double fraction)
    {
        Tristimulus white = WhitePoint.Of(LightAndObserver.D65Degree2);
        (CieLab from, CieLab to, double share) = fraction < 0.5 ? (Light, Middle, 2 * fraction) : (Middle, Dark, (2 * fraction) - 1);
        var colour = new CieLab(Between(from.L, to.L, share), Between(from.A, to.A, share), Between(from.B, to.B, share));
        return ScreenColour.From(colour.ToTristimulus(white), white);
    }

    private static double Between(double from, double to, double fraction) => from + (fraction * (to - from));

    private static Color Colour(double fraction)
    {
        ScreenColour screen = Screen(fraction);
        return new Color(screen.Red, screen.Green, screen.Blue);
    }
}
