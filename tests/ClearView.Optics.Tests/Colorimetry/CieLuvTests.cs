using ClearView.Optics.Colorimetry;
using ClearView.Optics.Tests.Reference;

namespace ClearView.Optics.Tests.Colorimetry;

public sealed class CieLuvTests
{
    private static readonly Tristimulus[] Colours =
    [
        new(90.1, 92.3, 99.8), new(41.24, 21.26, 1.93), new(35.76, 71.52, 11.92), new(18.05, 7.22, 95.05),
        new(20, 30, 40), new(1, 0.9, 1.1), new(0.1, 0.2, 0.3), new(0, 0, 0), new(100, 100, 100),
    ];

    // White points are the libraries' own figures, as in CieLabTests.
    [Theory]
    [InlineData("reference_colormath.py", "2", "a", 109.850, 35.585)]
    [InlineData("reference_colormath.py", "2", "c", 98.074, 118.232)]
    [InlineData("reference_colormath.py", "2", "d65", 95.047, 108.883)]
    [InlineData("reference_colormath.py", "10", "d65", 94.81, 107.3)]
    [InlineData("reference_skimage.py", "2", "A", 109.8466069456375, 35.58228003436005)]
    [InlineData("reference_skimage.py", "2", "D65", 95.047, 108.883)]
    public void From_AgreesWithALibraryUnderItsWhitePoint(string program, string observer, string illuminant, double whiteX, double whiteZ)
    {
        var white = new Tristimulus(whiteX, 100, whiteZ);

        double[][] expected = ReferenceProgram.Ask(
            program, "xyz_to_luv", Colours.Select(colour => new { xyz = new[] { colour.X, colour.Y, colour.Z }, observer, illuminant }));

        foreach ((Tristimulus colour, double[] luv) in Colours.Zip(expected))
        {
            var ours = CieLuv.From(colour, white);
            // Near black the libraries round the slope of L*, 903.3 instead of 24389/27.
            double tolerance = colour.Y < 0.9 ? 2e-4 : 1e-9;
            Assert.Equal(luv[0], ours.L, tolerance);
            Assert.Equal(luv[1], ours.U, tolerance);
            Assert.Equal(luv[2], ours.V, tolerance);
        }
    }

    // By hand.
    [Theory]
    [InlineData(3, 4, 5, 53.13010235415598)]
    [InlineData(0, 0, 0, 0)]
    [InlineData(0, -2, 2, 270)]
    public void ChromaAndHue_ArePolarCoordinates(double u, double v, double chroma, double hue)
    {
        var luv = new CieLuv(50, u, v);

        Assert.Equal(chroma, luv.Chroma, 1e-12);
        Assert.Equal(hue, luv.HueDegrees, 1e-12);
    }
}
