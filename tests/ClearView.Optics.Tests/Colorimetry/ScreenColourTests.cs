using ClearView.Optics.Colorimetry;
using ClearView.Optics.Tests.Reference;

namespace ClearView.Optics.Tests.Colorimetry;

public sealed class ScreenColourTests
{
    // A step of the screen is 1; half a step is lost in rounding. IEC 61966-2-1 prints its matrix with four decimals, the
    // libraries carry more: up to 1e-4 of a linear channel, which the slope of 12.92 near black makes 0.33 of a step.
    private const double Steps = 0.5 + 0.35;

    public static TheoryData<double, double, double> Whites { get; } = new()
    {
        { 95.047, 100, 108.883 },
        { 94.811, 100, 107.304 },
        { 98.074, 100, 118.232 },
        { 96.422, 100, 82.521 },
        { 109.850, 100, 35.585 },
    };

    [Fact]
    public void From_UnderD65_AgreesWithSkimage()
    {
        Tristimulus white = WhitePoint.Of(LightAndObserver.D65Degree2);
        Tristimulus[] colours = [.. Draw(white, 65)];

        double[][] expected = ReferenceProgram.Ask(
            "reference_skimage.py", "screen", colours.Select(colour => new { xyz = new[] { colour.X, colour.Y, colour.Z } }));

        foreach ((Tristimulus colour, double[] channels) in colours.Zip(expected))
        {
            AssertNear(channels, ScreenColour.From(colour, white));
        }
    }

    // Bradford adaptation from any white point; whites of ASTM E308, from memory.
    [Theory]
    [MemberData(nameof(Whites))]
    public void From_UnderAnyWhite_AgreesWithTheAdaptationOfColormath(double x, double y, double z)
    {
        var white = new Tristimulus(x, y, z);
        Tristimulus[] colours = [.. Draw(white, 66)];

        double[][] expected = ReferenceProgram.Ask("reference_colormath.py", "screen", colours.Select(colour => new
        {
            xyz = new[] { colour.X, colour.Y, colour.Z },
            white = new[] { x, y, z },
        }));

        bool[] inside = [.. expected.Select(channels => channels.All(channel => channel is >= 0 and <= 1))];
        foreach (((Tristimulus colour, double[] channels), bool within) in colours.Zip(expected).Zip(inside))
        {
            ScreenColour ours = ScreenColour.From(colour, white);
            AssertNear([.. channels.Select(channel => Math.Clamp(channel, 0, 1))], ours);
            // On the edge of the gamut the digits of the matrix decide; one step away they do not.
            if (channels.All(channel => channel is > 1 / 255.0 and < 254 / 255.0) || channels.Any(channel => channel is < -5 / 255.0 or > 256 / 255.0))
            {
                Assert.Equal(within, ours.IsInGamut);
            }
        }

        Assert.Contains(true, inside);
        Assert.Contains(false, inside);
    }

    [Theory]
    [MemberData(nameof(Whites))]
    public void From_WhiteAndBlack_AreTheEndsOfTheScreen(double x, double y, double z)
    {
        var white = new Tristimulus(x, y, z);

        Assert.Equal("#FFFFFF", ScreenColour.From(white, white).Hex);
        Assert.True(ScreenColour.From(white, white).IsInGamut);
        Assert.Equal("#000000", ScreenColour.From(default, white).Hex);
    }

    /// <summary>Colours of films (pale) and strong ones, some outside what a screen shows.</summary>
    private static IEnumerable<Tristimulus> Draw(Tristimulus white, int seed)
    {
        var random = new Random(seed);
        for (int i = 0; i < 200; i++)
        {
            double spread = i % 2 == 0 ? 10 : 160;
            var lab = new CieLab(5 + (95 * random.NextDouble()), spread * (random.NextDouble() - 0.5), spread * (random.NextDouble() - 0.5));
            yield return lab.ToTristimulus(white);
        }
    }

    private static void AssertNear(double[] channels, ScreenColour ours)
    {
        Assert.Equal(255 * channels[0], ours.Red, Steps);
        Assert.Equal(255 * channels[1], ours.Green, Steps);
        Assert.Equal(255 * channels[2], ours.Blue, Steps);
    }
}
