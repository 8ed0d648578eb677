using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Tests.Colorimetry;

public sealed class ObserverTests
{
    // CIE 15, 1931 observer at 1 nm, from memory: figures between the 5 nm table that Sprague's interpolation must meet to
    // the digits that this product carries (the CIE table at 1 nm has its own smoothing in the last place).
    [Theory]
    [InlineData(551, 0.4487, 0.9968, 0.00810)]
    [InlineData(552, 0.4643, 0.9983, 0.00749)]
    [InlineData(553, 0.4800, 0.9993, 0.00691)]
    [InlineData(554, 0.4960, 0.9998, 0.00632)]
    public void Cie1931Degree2_Between5NmFigures_FollowsThe1NmTable(double nm, double x, double y, double z)
    {
        Observer observer = Observer.Cie1931Degree2;
        int at = observer.XBar.Grid.IndexAtOrBelow(nm);

        Assert.Equal(x, observer.XBar[at], 0.0005);
        Assert.Equal(y, observer.YBar[at], 0.0005);
        Assert.Equal(z, observer.ZBar[at], 0.0005);
    }

    // CIE 15: the equi-energy stimulus has chromaticity 0.3333, 0.3333 for either observer; the tables meet it to that digit.
    [Theory]
    [InlineData("2°")]
    [InlineData("10°")]
    public void MatchingFunctions_HaveEqualSums(string name)
    {
        Observer observer = Observer.All.Single(one => one.Name == name);
        double y = observer.YBar.Values.ToArray().Sum();

        Assert.Equal(1, observer.XBar.Values.ToArray().Sum() / y, 5e-4);
        Assert.Equal(1, observer.ZBar.Values.ToArray().Sum() / y, 5e-4);
    }

    // CIE 15: ȳ of the 2° observer is V(λ), 1 at 555 nm.
    [Fact]
    public void Cie1931Degree2_YBar_PeaksAt555Nm() =>
        Assert.Equal(1, Observer.Cie1931Degree2.YBar[Observer.Cie1931Degree2.YBar.Grid.IndexAtOrBelow(555)]);
}
