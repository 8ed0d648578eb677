using ClearView.Optics.Spectra;

namespace ClearView.Optics.Tests.Spectra;

public sealed class SharedGridsTests
{
    [Fact]
    public void Regular_SameFigures_IsOneGrid()
    {
        WavelengthGrid grid = SharedGrids.Regular(401.25, 2.5, 61);

        Assert.Same(grid, SharedGrids.Regular(401.25, 2.5, 61));
        Assert.Equal(WavelengthGrid.Regular(401.25, 2.5, 61), grid);
        Assert.NotEqual(grid, SharedGrids.Regular(401.25, 2.5, 62));
    }

    [Fact]
    public void Regular_ManyGrids_StayRight()
    {
        for (int count = 2; count < 1002; count++)
        {
            Assert.Equal(WavelengthGrid.Regular(300, 0.25, count), SharedGrids.Regular(300, 0.25, count));
        }
    }

    [Fact]
    public void Regular_OutsideTheLimits_IsRefusedEachTime()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => SharedGrids.Regular(100, 5, 10));
        Assert.Throws<ArgumentOutOfRangeException>(() => SharedGrids.Regular(100, 5, 10));
    }
}
