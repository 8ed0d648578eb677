using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Tests.Colorimetry;

public sealed class YellownessIndexTests
{
    // ASTM E313, table of coefficients; from memory.
    [Theory]
    [InlineData("C", "2°", 1.2769, 1.0592)]
    [InlineData("D65", "2°", 1.2985, 1.1335)]
    [InlineData("C", "10°", 1.2871, 1.0781)]
    [InlineData("D65", "10°", 1.3013, 1.1498)]
    public void E313_HasThePrintedCoefficients(string illuminant, string observer, double cx, double cz)
    {
        E313Coefficients coefficients = Coefficients(illuminant, observer);

        Assert.Equal(cx, coefficients.Cx);
        Assert.Equal(cz, coefficients.Cz);
    }

    // The index of the perfect transmitter is 0 as far as coefficients of five figures allow: a half unit of the last
    // place of Cx and Cz changes 100 (Cx·X − Cz·Z) / Y by up to 0.005 · (X + Z) / Y, about 0.011.
    [Theory]
    [InlineData("C", "2°")]
    [InlineData("D65", "2°")]
    [InlineData("C", "10°")]
    [InlineData("D65", "10°")]
    public void E313_PerfectTransmitter_IsZeroWithinTheDigitsOfTheCoefficients(string illuminant, string observer)
    {
        E313Coefficients coefficients = Coefficients(illuminant, observer);
        Tristimulus white = WhitePoint.Of(coefficients.LightAndObserver);

        Assert.Equal(0, YellownessIndex.E313(white, coefficients).Value, 0.005 * (white.X + white.Z) / white.Y);
    }

    // By hand: 100 (1.2769 · 88 − 1.0592 · 104) / 90 = 100 (112.3672 − 110.1568) / 90.
    [Fact]
    public void E313_ByHand() =>
        Assert.Equal(2.456, YellownessIndex.E313(new Tristimulus(88, 90, 104), E313Coefficients.CDegree2).Value, 1e-12);

    // ISO 17223:2014, the two pairs with their coefficients; from memory.
    [Fact]
    public void Iso17223_KnowsTwoPairsWithThePrintedCoefficients() =>
        Assert.Equal(
            [("C/2°", 1.2769, 1.0592), ("D65/10°", 1.3013, 1.1498)],
            Iso17223.All.Select(one => (one.LightAndObserver.ToString(), one.Cx, one.Cz)));

    // By hand: 100 (1.3013 · 88 − 1.1498 · 98) / 90 = 100 (114.5144 − 112.6804) / 90.
    [Fact]
    public void Iso17223_ByHand()
    {
        YellownessIndex index = YellownessIndex.Iso17223(new Tristimulus(88, 90, 98), E313Coefficients.D65Degree10);

        Assert.Equal(183.4 / 90, index.Value, 1e-12);
        Assert.Equal("ISO 17223", index.Standard);
        Assert.Equal(LightAndObserver.D65Degree10, index.LightAndObserver);
    }

    [Theory]
    [InlineData("D65", "2°")]
    [InlineData("C", "10°")]
    public void Iso17223_PairThatOnlyE313Prints_IsRefused(string illuminant, string observer)
    {
        E313Coefficients coefficients = Coefficients(illuminant, observer);

        Assert.False(Iso17223.TryFind(coefficients.LightAndObserver, out _));
        Assert.Throws<ArgumentException>(() => YellownessIndex.Iso17223(new Tristimulus(88, 90, 98), coefficients));
    }

    // By hand: 100 (1.28 · 88 − 1.06 · 104) / 90 = 100 (112.64 − 110.24) / 90.
    [Fact]
    public void D1925_ByHand()
    {
        YellownessIndex index = YellownessIndex.D1925(new Tristimulus(88, 90, 104));

        Assert.Equal(240.0 / 90, index.Value, 1e-12);
        Assert.Equal(LightAndObserver.CDegree2, index.LightAndObserver);
        Assert.Contains("withdrawn", index.Standard, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("A", "2°")]
    [InlineData("D50", "2°")]
    [InlineData("A", "10°")]
    [InlineData("D50", "10°")]
    public void TryFind_PairWithoutPrintedCoefficients_FindsNothing(string illuminant, string observer)
    {
        Assert.True(Illuminant.TryFind(illuminant, out Illuminant? light));

        Assert.False(E313Coefficients.TryFind(new LightAndObserver(light, Observer.All.Single(one => one.Name == observer)), out _));
    }

    // Less blue light is yellower, more of it bluer.
    [Fact]
    public void E313_FollowsTheShareOfBlue()
    {
        double yellowish = YellownessIndex.E313(new Tristimulus(88, 90, 100), E313Coefficients.CDegree2).Value;
        double bluish = YellownessIndex.E313(new Tristimulus(88, 90, 110), E313Coefficients.CDegree2).Value;

        Assert.True(yellowish > 0 && bluish < 0);
    }

    private static E313Coefficients Coefficients(string illuminant, string observer) =>
        E313Coefficients.All.Single(one => one.LightAndObserver.Illuminant.Name == illuminant && one.LightAndObserver.Observer.Name == observer);
}
