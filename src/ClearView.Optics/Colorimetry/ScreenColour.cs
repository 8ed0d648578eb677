using System.Globalization;

namespace ClearView.Optics.Colorimetry;

/// <summary>A preview of a colour on an sRGB screen (IEC 61966-2-1). For orientation, never for a decision.</summary>
/// <param name="Red">Red, 0-255.</param>
/// <param name="Green">Green, 0-255.</param>
/// <param name="Blue">Blue, 0-255.</param>
/// <param name="IsInGamut">Whether the screen can show the colour; otherwise it was cut to the nearest channel limits.</param>
public readonly record struct ScreenColour(byte Red, byte Green, byte Blue, bool IsInGamut)
{
    // A channel may miss [0, 1] by this through rounding of the printed matrices (four decimals).
    private const double GamutRounding = 5e-4;

    private static readonly Tristimulus ScreenWhite = WhitePoint.Of(LightAndObserver.D65Degree2);

    /// <summary>For example "#FFF8E1".</summary>
    public string Hex => string.Create(CultureInfo.InvariantCulture, $"#{Red:X2}{Green:X2}{Blue:X2}");

    /// <summary>Adapts a colour from its white point to the screen's and encodes it.</summary>
    /// <param name="colour">The colour.</param>
    /// <param name="white">Its white point.</param>
    public static ScreenColour From(Tristimulus colour, Tristimulus white)
    {
        Tristimulus adapted = Adapt(colour, white, ScreenWhite);
        double x = adapted.X / 100;
        double y = adapted.Y / 100;
        double z = adapted.Z / 100;

        // IEC 61966-2-1, inverse matrix as printed there.
        double red = (3.2406 * x) - (1.5372 * y) - (0.4986 * z);
        double green = (-0.9689 * x) + (1.8758 * y) + (0.0415 * z);
        double blue = (0.0557 * x) - (0.2040 * y) + (1.0570 * z);
        bool inGamut = InGamut(red) && InGamut(green) && InGamut(blue);
        return new ScreenColour(Encode(red), Encode(green), Encode(blue), inGamut);
    }

    /// <summary>Linear Bradford adaptation (ICC.1, annex on chromatic adaptation).</summary>
    private static Tristimulus Adapt(Tristimulus colour, Tristimulus from, Tristimulus to)
    {
        (double r, double g, double b) = Cone(colour);
        (double fr, double fg, double fb) = Cone(from);
        (double tr, double tg, double tb) = Cone(to);
        r *= tr / fr;
        g *= tg / fg;
        b *= tb / fb;
        return new Tristimulus(
            (0.9869929 * r) - (0.1470543 * g) + (0.1599627 * b),
            (0.4323053 * r) + (0.5183603 * g) + (0.0492912 * b),
            (-0.0085287 * r) + (0.0400428 * g) + (0.9684867 * b));
    }

    private static (double R, double G, double B) Cone(Tristimulus c) => (
        (0.8951 * c.X) + (0.2664 * c.Y) - (0.1614 * c.Z),
        (-0.7502 * c.X) + (1.7135 * c.Y) + (0.0367 * c.Z),
        (0.0389 * c.X) - (0.0685 * c.Y) + (1.0296 * c.Z));

    private static bool InGamut(double linear) => linear is >= -GamutRounding and <= 1 + GamutRounding;

    private static byte Encode(double linear)
    {
        double clipped = Math.Clamp(linear, 0, 1);
        double encoded = clipped <= 0.0031308 ? 12.92 * clipped : (1.055 * Math.Pow(clipped, 1 / 2.4)) - 0.055;
        return (byte)Math.Round(encoded * 255);
    }
}
