using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Tests.Colorimetry;

public sealed class TristimulusTests
{
    // CIE 15, chromaticity of D65 for the 2° observer, printed to five decimals; from memory.
    [Fact]
    public void Chromaticity_OfD65_IsThePrintedOne()
    {
        Tristimulus white = WhitePoint.Of(LightAndObserver.D65Degree2);

        Assert.Equal(0.31272, white.ToChromaticity().X, 0.00002);
        Assert.Equal(0.32903, white.ToChromaticity().Y, 0.00002);
        Assert.Equal(0.1978, white.ToUniformChromaticity().U, 0.00005);
        Assert.Equal(0.4683, white.ToUniformChromaticity().V, 0.00005);
    }

    // By hand: 20/100, 30/100; 4·20/(20 + 450 + 150) and 9·30/(20 + 450 + 150).
    [Fact]
    public void Chromaticity_ByHand()
    {
        var colour = new Tristimulus(20, 30, 50);

        Assert.Equal(0.2, colour.ToChromaticity().X, 1e-15);
        Assert.Equal(0.3, colour.ToChromaticity().Y, 1e-15);
        Assert.Equal(80.0 / 620, colour.ToUniformChromaticity().U, 1e-15);
        Assert.Equal(270.0 / 620, colour.ToUniformChromaticity().V, 1e-15);
    }

    [Fact]
    public void Chromaticity_OfBlack_IsUndefined()
    {
        Assert.True(double.IsNaN(new Tristimulus(0, 0, 0).ToChromaticity().X));
        Assert.True(double.IsNaN(new Tristimulus(0, 0, 0).ToUniformChromaticity().U));
    }
}
