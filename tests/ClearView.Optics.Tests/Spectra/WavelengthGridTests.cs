using ClearView.Optics.Spectra;

namespace ClearView.Optics.Tests.Spectra;

public sealed class WavelengthGridTests
{
    [Theory]
    [InlineData(1, 421)]
    [InlineData(2, 211)]
    [InlineData(5, 85)]
    [InlineData(10, 43)]
    [InlineData(20, 22)]
    public void Between_CountsBothEnds(double intervalNm, int count)
    {
        WavelengthGrid grid = WavelengthGrid.Between(360, 780, intervalNm);

        Assert.Equal(count, grid.Count);
        Assert.Equal(360, grid.FirstNm);
        Assert.Equal(780, grid.LastNm);
        Assert.Equal(intervalNm, grid.IntervalNm);
    }

    [Fact]
    public void Between_IntervalThatMissesTheEnd_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => WavelengthGrid.Between(400, 705, 10));

    [Theory]
    [InlineData(200, 1, 2)]
    [InlineData(1050, 50, 2)]
    [InlineData(400, 50, 7)]
    [InlineData(200, 0.45, 2001)]
    public void Regular_OnTheLimits_IsAccepted(double startNm, double intervalNm, int count) =>
        Assert.Equal(count, WavelengthGrid.Regular(startNm, intervalNm, count).Count);

    [Theory]
    [InlineData(199.999, 1, 2)]
    [InlineData(1050.001, 50, 2)]
    [InlineData(400, 50.001, 2)]
    [InlineData(400, 0, 2)]
    [InlineData(400, -1, 2)]
    [InlineData(400, 1, 1)]
    [InlineData(200, 0.1, 2002)]
    [InlineData(double.NaN, 1, 2)]
    [InlineData(400, double.NaN, 2)]
    [InlineData(400, double.PositiveInfinity, 2)]
    public void Regular_BeyondTheLimits_IsRefused(double startNm, double intervalNm, int count) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => WavelengthGrid.Regular(startNm, intervalNm, count));

    [Theory]
    [InlineData(400, 400)]
    [InlineData(410, 400)]
    [InlineData(400, 450.001)]
    [InlineData(400, double.NaN)]
    [InlineData(199.9, 210)]
    [InlineData(1090, 1100.1)]
    public void FromWavelengths_NotAscendingWithinLimits_IsRefused(double first, double second) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => WavelengthGrid.FromWavelengths([first, second]));

    [Fact]
    public void FromWavelengths_EvenSpacing_IsTheSameAsRegular()
    {
        WavelengthGrid listed = WavelengthGrid.FromWavelengths([400, 410, 420]);

        Assert.Equal(10, listed.IntervalNm);
        Assert.Equal(WavelengthGrid.Regular(400, 10, 3), listed);
        Assert.Equal(WavelengthGrid.Regular(400, 10, 3).GetHashCode(), listed.GetHashCode());
        Assert.True(listed == WavelengthGrid.Between(400, 420, 10));
    }

    [Fact]
    public void FromWavelengths_UnevenSpacing_HasNoInterval()
    {
        WavelengthGrid grid = WavelengthGrid.FromWavelengths([400, 410, 425]);

        Assert.Null(grid.IntervalNm);
        Assert.Equal(15, grid.WidestIntervalNm);
        Assert.True(grid != WavelengthGrid.FromWavelengths([400, 410, 420]));
    }

    [Fact]
    public void FromWavelengths_CallersArray_IsCopied()
    {
        double[] wavelengths = [400, 410, 420];
        WavelengthGrid grid = WavelengthGrid.FromWavelengths(wavelengths);

        wavelengths[1] = 415;

        Assert.Equal(410, grid[1]);
    }

    [Theory]
    [InlineData(399.9, -1)]
    [InlineData(400, 0)]
    [InlineData(409.9, 0)]
    [InlineData(410, 1)]
    [InlineData(999, 2)]
    public void IndexAtOrBelow_FindsTheLastNotAbove(double nm, int expected) =>
        Assert.Equal(expected, WavelengthGrid.FromWavelengths([400, 410, 425]).IndexAtOrBelow(nm));
}
