using ClearView.Optics.Colorimetry;

namespace ClearView.Optics.Tests.Colorimetry;

public sealed class DominantWavelengthTests
{
    private static readonly Tristimulus White = WhitePoint.Of(LightAndObserver.CDegree2);

    // By definition (CIE 15): a spectral stimulus mixed with white has that wavelength, whatever the share of white.
    [Theory]
    [InlineData(450, 0.01)]
    [InlineData(475, 0.1)]
    [InlineData(500, 0.5)]
    [InlineData(555, 0.9)]
    [InlineData(580, 0.3)]
    [InlineData(610, 0.7)]
    [InlineData(650, 0.2)]
    public void Find_SpectralStimulusWithWhite_GivesItsWavelength(int nm, double share)
    {
        Tristimulus mixed = Mix(Spectral(nm, Observer.Cie1931Degree2), White, share);

        DominantWavelength found = DominantWavelength.Find(mixed, White, Observer.Cie1931Degree2)!.Value;

        Assert.Equal(nm, found.WavelengthNm, 1e-6);
        Assert.False(found.IsComplementary);
    }

    // By definition: excitation purity is the distance of the colour from white over that of the boundary from white.
    [Theory]
    [InlineData(0.2)]
    [InlineData(0.5)]
    [InlineData(1)]
    public void Find_ColourOnTheLineToTheLocus_HasThatPurity(double purity)
    {
        Chromaticity locus = Spectral(580, Observer.Cie1931Degree2).ToChromaticity();
        Chromaticity white = White.ToChromaticity();
        Tristimulus colour = OfChromaticity(white.X + (purity * (locus.X - white.X)), white.Y + (purity * (locus.Y - white.Y)));

        DominantWavelength found = DominantWavelength.Find(colour, White, Observer.Cie1931Degree2)!.Value;

        Assert.Equal(purity, found.ExcitationPurity, 1e-9);
        Assert.Equal(580, found.WavelengthNm, 1e-6);
        Assert.Equal(locus.X, found.Boundary.X, 1e-9);
        Assert.Equal(locus.Y, found.Boundary.Y, 1e-9);
    }

    // Half-way between two whole nanometres along the locus: not to the nearest nm.
    [Fact]
    public void Find_BetweenTwoWholeNanometres_Interpolates()
    {
        Chromaticity one = Spectral(500, Observer.Cie1931Degree2).ToChromaticity();
        Chromaticity next = Spectral(501, Observer.Cie1931Degree2).ToChromaticity();
        Tristimulus colour = OfChromaticity((one.X + next.X) / 2, (one.Y + next.Y) / 2);

        Assert.Equal(500.5, DominantWavelength.Find(colour, White, Observer.Cie1931Degree2)!.Value.WavelengthNm, 1e-6);
    }

    // By definition: a purple has the wavelength of the opposite direction, and its purity is measured to the purple line.
    [Fact]
    public void Find_Purple_GivesTheComplementaryWavelength()
    {
        Chromaticity green = Spectral(530, Observer.Cie1931Degree2).ToChromaticity();
        Chromaticity white = White.ToChromaticity();
        Tristimulus purple = OfChromaticity(white.X - (0.1 * (green.X - white.X)), white.Y - (0.1 * (green.Y - white.Y)));

        DominantWavelength found = DominantWavelength.Find(purple, White, Observer.Cie1931Degree2)!.Value;

        Assert.True(found.IsComplementary);
        Assert.Equal(530, found.WavelengthNm, 1e-6);
        Chromaticity blueEnd = Spectral(380, Observer.Cie1931Degree2).ToChromaticity();
        Chromaticity redEnd = Spectral(700, Observer.Cie1931Degree2).ToChromaticity();
        double cross = ((redEnd.X - blueEnd.X) * (found.Boundary.Y - blueEnd.Y)) - ((redEnd.Y - blueEnd.Y) * (found.Boundary.X - blueEnd.X));
        Assert.Equal(0, cross, 1e-12);
    }

    [Theory]
    [InlineData(0.9e-5, false)]
    [InlineData(1.1e-5, true)]
    public void Find_NearWhite_IsAchromatic(double distance, bool hasDirection)
    {
        Chromaticity white = White.ToChromaticity();
        Tristimulus colour = OfChromaticity(white.X + distance, white.Y);

        Assert.Equal(hasDirection, DominantWavelength.Find(colour, White, Observer.Cie1931Degree2) is not null);
    }

    [Fact]
    public void Find_Black_IsAchromatic() =>
        Assert.Null(DominantWavelength.Find(new Tristimulus(0, 0, 0), White, Observer.Cie1931Degree2));

    // Every direction leads somewhere, for both observers and every white point.
    [Fact]
    public void Find_EveryDirection_HasAWavelengthWithinTheLocus()
    {
        foreach (Observer observer in Observer.All)
        {
            foreach (Illuminant illuminant in Illuminant.All)
            {
                Tristimulus white = WhitePoint.Of(new LightAndObserver(illuminant, observer));
                Chromaticity w = white.ToChromaticity();
                for (int degrees = 0; degrees < 360; degrees++)
                {
                    double angle = degrees * Math.PI / 180;
                    Tristimulus colour = OfChromaticity(w.X + (0.01 * Math.Cos(angle)), w.Y + (0.01 * Math.Sin(angle)));
                    DominantWavelength? found = DominantWavelength.Find(colour, white, observer);
                    Assert.True(
                        found is { WavelengthNm: >= 380 and <= 700, ExcitationPurity: > 0 and < 0.3 },
                        $"{illuminant}/{observer} at {degrees}°: {found}");
                }
            }
        }
    }

    private static Tristimulus Spectral(int nm, Observer observer)
    {
        int at = observer.XBar.Grid.IndexAtOrBelow(nm);
        return new Tristimulus(observer.XBar[at], observer.YBar[at], observer.ZBar[at]);
    }

    private static Tristimulus Mix(Tristimulus spectral, Tristimulus white, double share) => new(
        (spectral.X * share) + (white.X / 100 * (1 - share)),
        (spectral.Y * share) + (white.Y / 100 * (1 - share)),
        (spectral.Z * share) + (white.Z / 100 * (1 - share)));

    private static Tristimulus OfChromaticity(double x, double y) => new(x, y, 1 - x - y);
}
