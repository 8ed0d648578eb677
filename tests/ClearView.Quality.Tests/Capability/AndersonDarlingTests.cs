using ClearView.Quality.Capability;
using ClearView.Quality.Tests.ControlCharts;
using ClearView.Quality.Tests.Reference;

using FsCheck.Xunit;

namespace ClearView.Quality.Tests.Capability;

public sealed class AndersonDarlingTests
{
    // R: the statistic from its own normal distribution; p by 20 000 simulated samples of the same size, whose standard error is
    // at most 0.0035 and within which the published approximation (good to about 0.01 itself) is to lie.
    [Theory]
    [InlineData(21, 30, 1)]
    [InlineData(22, 60, 1)]
    [InlineData(23, 30, 2)]
    [InlineData(24, 15, 1)]
    public void Of_AgreesWithR(int seed, int count, int power)
    {
        double[] drawn = [.. Draws.Normal(seed, count, 10, 2).Select(value => Math.Pow(value, power))];

        AndersonDarling test = AndersonDarling.Of(drawn)!;

        double[] r = ReferenceR.Ask("reference_control.R", "anderson_darling", drawn);
        Assert.Equal(r[0], test.Statistic, 1e-10);
        Assert.Equal(r[1], test.Adjusted, 1e-10);
        Assert.Equal(r[2], test.PValue, 0.03);
    }

    // D'Agostino and Stephens (1986), upper points of A*² with both parameters estimated, from memory.
    [Theory]
    [InlineData(0.631, 0.10)]
    [InlineData(0.752, 0.05)]
    [InlineData(0.873, 0.025)]
    [InlineData(1.035, 0.01)]
    public void PValue_AtThePublishedPoints(double adjusted, double level)
    {
        // A sample whose statistic lies at the point: a stretched tail, found by bisection.
        (double low, double high) = (0, 30);
        for (int i = 0; i < 60; i++)
        {
            double middle = (low + high) / 2;
            (low, high) = Stretched(middle).Adjusted < adjusted ? (middle, high) : (low, middle);
        }

        Assert.Equal(adjusted, Stretched(low).Adjusted, 1e-6);
        Assert.Equal(level, Stretched(low).PValue, 0.001);
    }

    [Property(Replay = "(20240416,21)", MaxTest = 100)]
    public void Of_ShiftScaleOrder_ChangesNothing(int seed, short shift, byte factor)
    {
        double[] drawn = Draws.Normal(seed, 25);
        double[] moved = [.. drawn.Select(value => shift + ((factor + 1) / 16.0 * value)).Reverse()];

        Assert.Equal(AndersonDarling.Of(drawn)!.Statistic, AndersonDarling.Of(moved)!.Statistic, 1e-6);
    }

    [Fact]
    public void Of_TooFewOrAlike_IsNotGiven()
    {
        Assert.Null(AndersonDarling.Of([1, 2, 3, 4, 5, 6, 7]));
        Assert.NotNull(AndersonDarling.Of([1, 2, 3, 4, 5, 6, 7, 8]));
        Assert.Null(AndersonDarling.Of(new double[8]));
    }

    [Fact]
    public void Of_FarFromNormal_IsFiniteAndSmall()
    {
        AndersonDarling test = AndersonDarling.Of([.. Enumerable.Repeat(0.0, 4000).Append(1e9)])!;

        Assert.True(double.IsFinite(test.Statistic));
        Assert.InRange(test.PValue, 0, 1e-20);
    }

    private static AndersonDarling Stretched(double by) =>
        AndersonDarling.Of([.. Enumerable.Range(1, 40).Select(i => MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, (i - 0.5) / 40) + (i == 40 ? by : 0))])!;
}
