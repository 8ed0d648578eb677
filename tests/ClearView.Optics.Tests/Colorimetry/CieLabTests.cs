using ClearView.Optics.Colorimetry;
using ClearView.Optics.Tests.Generators;
using ClearView.Optics.Tests.Reference;

using FsCheck.Xunit;

namespace ClearView.Optics.Tests.Colorimetry;

public sealed class CieLabTests
{
    private static readonly Tristimulus[] Colours =
    [
        new(90.1, 92.3, 99.8), new(41.24, 21.26, 1.93), new(35.76, 71.52, 11.92), new(18.05, 7.22, 95.05),
        new(20, 30, 40), new(1, 0.9, 1.1), new(0.1, 0.2, 0.3), new(0.886, 0.8856, 0.8), new(0, 0, 0), new(100, 100, 100),
    ];

    // python3-colormath and python3-skimage take their white points from their own tables, by name; each case repeats the
    // library's figures, so that only the formula is compared.
    [Theory]
    [InlineData("reference_colormath.py", "2", "a", 109.850, 35.585)]
    [InlineData("reference_colormath.py", "2", "c", 98.074, 118.232)]
    [InlineData("reference_colormath.py", "2", "d50", 96.422, 82.521)]
    [InlineData("reference_colormath.py", "2", "d65", 95.047, 108.883)]
    [InlineData("reference_colormath.py", "10", "d65", 94.81, 107.3)]
    [InlineData("reference_skimage.py", "2", "A", 109.8466069456375, 35.58228003436005)]
    [InlineData("reference_skimage.py", "2", "D65", 95.047, 108.883)]
    public void From_AgreesWithALibraryUnderItsWhitePoint(string program, string observer, string illuminant, double whiteX, double whiteZ)
    {
        var white = new Tristimulus(whiteX, 100, whiteZ);

        double[][] expected = ReferenceProgram.Ask(
            program, "xyz_to_lab", Colours.Select(colour => new { xyz = new[] { colour.X, colour.Y, colour.Z }, observer, illuminant }));

        foreach ((Tristimulus colour, double[] lab) in Colours.Zip(expected))
        {
            var ours = CieLab.From(colour, white);
            // Both libraries round the slope of the linear part to 7.787, which changes a* by up to 2e-4 near black.
            double tolerance = Math.Min(colour.X, Math.Min(colour.Y, colour.Z)) < 1.2 ? 2e-4 : 1e-9;
            Assert.Equal(lab[0], ours.L, tolerance);
            Assert.Equal(lab[1], ours.A, tolerance);
            Assert.Equal(lab[2], ours.B, tolerance);
        }
    }

    // ISO/CIE 11664-4: at the joint, (6/29)³, value and slope of both branches meet; L* there is 8.
    [Fact]
    public void From_AtTheJoint_IsContinuous()
    {
        double joint = 100 * Math.Pow(6.0 / 29, 3);
        var white = new Tristimulus(95.047, 100, 108.883);

        Assert.Equal(8, CieLab.From(new Tristimulus(1, joint, 1), white).L, 1e-12);
        Assert.Equal(8, CieLab.From(new Tristimulus(1, joint * (1 + 1e-12), 1), white).L, 1e-9);
    }

    [Fact]
    public void From_BlackAndWhite_AreTheEndsOfTheLightnessScale()
    {
        var white = new Tristimulus(95.047, 100, 108.883);

        Assert.Equal(new CieLab(100, 0, 0), CieLab.From(white, white));
        Assert.Equal(0, CieLab.From(new Tristimulus(0, 0, 0), white).L, 1e-12);
    }

    // Noise may push a black specimen below zero: the linear branch carries on.
    [Fact]
    public void From_NegativeTristimulus_IsFinite() =>
        Assert.True(CieLab.From(new Tristimulus(-0.01, -0.02, -0.03), new Tristimulus(95, 100, 108)) is { L: < 0 and > -1 });

    [Property(Replay = "(20240304,15)", MaxTest = 500, Arbitrary = [typeof(Cases)])]
    public void ToTristimulus_AndBack_GivesTheSameColour(CieLab lab)
    {
        var white = new Tristimulus(94.811, 100, 107.304);

        var back = CieLab.From(lab.ToTristimulus(white), white);

        Assert.Equal(lab.L, back.L, 1e-9);
        Assert.Equal(lab.A, back.A, 1e-9);
        Assert.Equal(lab.B, back.B, 1e-9);
    }

    // By hand.
    [Theory]
    [InlineData(3, 4, 5, 53.13010235415598)]
    [InlineData(0, 0, 0, 0)]
    [InlineData(-1, 0, 1, 180)]
    [InlineData(0, -2, 2, 270)]
    [InlineData(1, 0, 1, 0)]
    public void ChromaAndHue_ArePolarCoordinates(double a, double b, double chroma, double hue)
    {
        var lab = new CieLab(50, a, b);

        Assert.Equal(chroma, lab.Chroma, 1e-12);
        Assert.Equal(hue, lab.HueDegrees, 1e-12);
    }
}
