using ClearView.Optics.Colorimetry;
using ClearView.Plotting.Theme;

using ScottPlot;

namespace ClearView.Plotting.Tests.Theme;

public sealed class ColourScaleTests
{
    // Contrast that graphical objects need: Web Content Accessibility Guidelines 2.1, 1.4.11.
    private const double LeastContrast = 3;

    [Fact]
    public void At_RisingFraction_DarkensEvenlyInGrey()
    {
        double[] lightness = [.. Enumerable.Range(0, 11).Select(i => Lightness(ColourScale.At(i / 10.0)))];

        double[] steps = [.. lightness.Zip(lightness.Skip(1), (before, after) => before - after)];
        // Evenly to half a step: eight bits of each channel and the steps of the scale round it.
        double mean = (ColourScale.LightestL - ColourScale.DarkestL) / 10;
        Assert.All(steps, step => Assert.InRange(step, 0.5 * mean, 1.5 * mean));
    }

    [Fact]
    public void Screen_EqualFractions_AreEqualStepsOfColour()
    {
        Tristimulus white = WhitePoint.Of(LightAndObserver.D65Degree2);
        CieLab[] colours = [.. Enumerable.Range(0, 11).Select(i => CieLab.From(Xyz(ColourScale.At(i / 10.0)), white))];
        double[] steps =
        [
            .. colours.Zip(colours.Skip(1), (one, other) => Math.Sqrt(Math.Pow(one.L - other.L, 2) + Math.Pow(one.A - other.A, 2) + Math.Pow(one.B - other.B, 2))),
        ];

        Assert.All(steps, step => Assert.InRange(step, 0.85 * steps.Average(), 1.15 * steps.Average()));
    }

    [Fact]
    public void Screen_EveryColour_CanBeShown() =>
        Assert.All(Enumerable.Range(0, ColourScale.StepCount), i => Assert.True(ColourScale.Screen((double)i / (ColourScale.StepCount - 1)).IsInGamut, $"step {i}"));

    [Fact]
    public void At_DarkEnd_StillShowsTheStrokesOfAHatching()
    {
        double scale = Luminance(ColourScale.At(1));
        double stroke = Luminance(ReportTheme.Of(Model.Ink.Black));

        Assert.True((scale + 0.05) / (stroke + 0.05) >= LeastContrast);
    }

    [Theory]
    [InlineData(-1, 0)]
    [InlineData(2, 1)]
    [InlineData(double.NaN, 0)]
    public void At_OutsideTheScale_TakesAnEnd(double fraction, double end) => Assert.Equal(ColourScale.At(end).ToHex(), ColourScale.At(fraction).ToHex());

    /// <summary>CIE 15: lightness from luminance.</summary>
    private static double Lightness(Color colour) => (116 * Math.Cbrt(Luminance(colour))) - 16;

    private static double Luminance(Color colour) => Xyz(colour).Y / 100;

    /// <summary>IEC 61966-2-1, with the matrix as printed there.</summary>
    private static Tristimulus Xyz(Color colour)
    {
        (double r, double g, double b) = (Linear(colour.R), Linear(colour.G), Linear(colour.B));
        return new Tristimulus(
            100 * ((0.4124 * r) + (0.3576 * g) + (0.1805 * b)), 100 * ((0.2126 * r) + (0.7152 * g) + (0.0722 * b)), 100 * ((0.0193 * r) + (0.1192 * g) + (0.9505 * b)));
    }

    private static double Linear(byte channel) => channel / 255.0 is var v && v <= 0.04045 ? v / 12.92 : Math.Pow((v + 0.055) / 1.055, 2.4);
}
