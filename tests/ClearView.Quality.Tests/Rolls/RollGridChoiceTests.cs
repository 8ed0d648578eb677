using ClearView.Quality.Rolls;

namespace ClearView.Quality.Tests.Rolls;

/// <summary>Divisions that suit the places of readings, by hand.</summary>
public sealed class RollGridChoiceTests
{
    private static readonly double[] Heads = [100, 200, 300, 400];

    [Fact]
    public void For_FixedHeads_ArePlacedInTheMiddleOfLanes()
    {
        RollGrid grid = RollGridChoice.For([.. Heads, .. Heads, .. Heads], [1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3])!;

        Assert.Equal((4, 3), (grid.Lanes, grid.Blocks));
        Assert.Equal((50.0, 450.0, 0.5, 3.5), (grid.AcrossFromMm, grid.AcrossToMm, grid.AlongFromM, grid.AlongToM));
        Assert.Equal(Heads, Enumerable.Range(0, 4).Select(grid.LaneMiddleMm));
        Assert.Equal([1.0, 2, 3], Enumerable.Range(0, 3).Select(grid.BlockMiddleM));
    }

    [Fact]
    public void For_AskedFewerLanesThanPlaces_EndsAtThem()
    {
        RollGrid grid = RollGridChoice.For(Heads, [1, 2, 3, 4], lanes: 2, blocks: 1)!;

        Assert.Equal((2, 1, 100.0, 400.0, 1.0, 4.0), (grid.Lanes, grid.Blocks, grid.AcrossFromMm, grid.AcrossToMm, grid.AlongFromM, grid.AlongToM));
    }

    // 24 places take 24 lanes, 25 are scattered: √25 lanes.
    [Theory]
    [InlineData(24, 24)]
    [InlineData(25, 5)]
    [InlineData(10_000, 24)]
    public void For_Lanes_FollowThePlaces(int places, int lanes)
    {
        double[] across = [.. Enumerable.Range(0, places).Select(i => (double)i)];

        Assert.Equal(lanes, RollGridChoice.For(across, new double[places])!.Lanes);
    }

    // Two lanes: as many blocks as readings per lane, 60 at most.
    [Theory]
    [InlineData(10, 5)]
    [InlineData(120, 60)]
    [InlineData(1000, 60)]
    public void For_Blocks_FollowTheReadings(int readings, int blocks)
    {
        double[] across = [.. Enumerable.Range(0, readings).Select(i => (double)(i % 2))];
        double[] along = [.. Enumerable.Range(0, readings).Select(i => (double)i)];

        Assert.Equal((2, blocks), (RollGridChoice.For(across, along)!.Lanes, RollGridChoice.For(across, along)!.Blocks));
    }

    [Fact]
    public void For_Cells_AreBounded() => Assert.Equal(
        10, RollGridChoice.For([.. Enumerable.Range(0, 2000).Select(i => (double)i)], new double[2000], blocks: 10_000)!.Lanes);

    [Fact]
    public void For_ReadingsWithoutAPlace_ArePassedOver()
    {
        Assert.Null(RollGridChoice.For([], []));
        Assert.Null(RollGridChoice.For([double.NaN, 1], [1, double.NaN]));
        RollGrid one = RollGridChoice.For([double.NaN, 5], [99, 7])!;
        Assert.Equal((1, 1, 4.0, 6.0, 6.0, 8.0), (one.Lanes, one.Blocks, one.AcrossFromMm, one.AcrossToMm, one.AlongFromM, one.AlongToM));
        Assert.Throws<ArgumentException>(() => RollGridChoice.For([1], [1, 2]));
    }
}
