using ClearView.Plotting.Rendering;

using ScottPlot;

namespace ClearView.Plotting.Tests.Rendering;

public sealed class LabelPlacerTests
{
    private static readonly PixelRect Area = new(0, 200, 100, 0);

    [Fact]
    public void Place_OnePoint_StandsAboveIt()
    {
        PixelRect place = Assert.NotNull(Assert.Single(LabelPlacer.Place([(new Pixel(100, 50), 40, 10)], Area, [], [])));

        Assert.True(place.Bottom < 50);
        Assert.Equal(100, (place.Left + place.Right) / 2);
    }

    [Fact]
    public void Place_ManyAtOnePoint_TouchNeitherOneAnotherNorTheEdgeAndLeaveOutTheRest()
    {
        PixelRect[] places = [.. LabelPlacer.Place([.. Enumerable.Repeat((new Pixel(100, 50), 40f, 10f), 60)], Area, [], []).OfType<PixelRect>()];

        Assert.InRange(places.Length, 3, 59);
        Assert.All(places, place => Assert.True(place.Left >= 0 && place.Right <= 200 && place.Top >= 0 && place.Bottom <= 100));
        Assert.All(places.Index(), one => Assert.DoesNotContain(places.Index(), other => other.Index != one.Index && LabelPlacer.Touches(one.Item, other.Item)));
    }

    [Fact]
    public void Place_MarksAbove_StandsBeneath()
    {
        Pixel[] marks = [.. Enumerable.Range(0, 21).SelectMany(x => Enumerable.Range(0, 10).Select(y => new Pixel(10 * x, 4.5f * y)))];
        PixelRect place = Assert.NotNull(Assert.Single(LabelPlacer.Place([(new Pixel(100, 50), 40, 10)], Area, [], marks)));

        Assert.True(place.Top > 50);
    }

    [Theory]
    [InlineData(new float[] { 10, 50 }, new float[] { 10, 50 })]
    [InlineData(new float[] { 30, 30 }, new float[] { 22.5f, 37.5f })]
    [InlineData(new float[] { 2, 4 }, new float[] { 0, 15 })]
    [InlineData(new float[] { 98, 99, 100 }, new float[] { 70, 85, 100 })]
    public void Spread_Places_AreMovedApartAndKeptInside(float[] wanted, float[] expected) => Assert.Equal(expected, EdgeNames.Spread(wanted, 15, 0, 100));
}
