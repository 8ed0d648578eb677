using ClearView.Quality.ControlCharts;

namespace ClearView.Quality.Tests.ControlCharts;

/// <summary>Each pattern on both sides of its border, after its definition in ISO 8258 (from memory).</summary>
public sealed class RunRuleTests
{
    private static readonly ControlLimits Standard = ControlLimits.Given(ControlChartKind.Individuals, 0, 1);

    [Theory]
    [InlineData(3.0, false)]
    [InlineData(3.0001, true)]
    [InlineData(-3.0, false)]
    [InlineData(-3.0001, true)]
    public void BeyondLimits(double value, bool raised) => Assert.Equal(raised, Last([value]).HasFlag(ControlSignals.BeyondLimits));

    [Theory]
    [InlineData(8, false)]
    [InlineData(9, true)]
    [InlineData(10, true)]
    public void RunOnOneSide(int length, bool raised) =>
        Assert.Equal(raised, Last([-0.1, .. Enumerable.Repeat(0.5, length)]).HasFlag(ControlSignals.RunOnOneSide));

    [Fact]
    public void RunOnOneSide_PointOnTheCentreLine_EndsIt() =>
        Assert.False(Last([.. Enumerable.Repeat(0.5, 5), 0, .. Enumerable.Repeat(0.5, 8)]).HasFlag(ControlSignals.RunOnOneSide));

    [Theory]
    [InlineData(5, false)]
    [InlineData(6, true)]
    public void Trend(int length, bool raised)
    {
        double[] rising = [.. Enumerable.Range(0, length).Select(i => -1 + (0.3 * i))];

        Assert.Equal(raised, Last(rising).HasFlag(ControlSignals.Trend));
        Assert.Equal(raised, Last([.. rising.Select(value => -value)]).HasFlag(ControlSignals.Trend));
        Assert.False(Last([.. rising, rising[^1]]).HasFlag(ControlSignals.Trend));
    }

    [Theory]
    [InlineData(13, false)]
    [InlineData(14, true)]
    public void Alternation(int length, bool raised) =>
        Assert.Equal(raised, Last([.. Enumerable.Range(0, length).Select(i => i % 2 == 0 ? 0.1 : 0.2)]).HasFlag(ControlSignals.Alternation));

    [Theory]
    [InlineData(2.1, 0.0, 2.1, true)]
    [InlineData(0.0, 2.1, 2.1, true)]
    [InlineData(2.1, 2.1, 0.0, false)]
    [InlineData(2.1, 0.0, -2.1, false)]
    [InlineData(2.0, 0.0, 2.1, false)]
    [InlineData(-2.1, 0.0, -2.1, true)]
    public void TwoOfThreeNearLimit(double a, double b, double c, bool raised) =>
        Assert.Equal(raised, Last([a, b, c]).HasFlag(ControlSignals.TwoOfThreeNearLimit));

    [Theory]
    [InlineData(1.1, 1.1, 0.0, 1.1, 1.1, true)]
    [InlineData(1.1, 1.1, 1.1, 1.1, 0.0, false)]
    [InlineData(1.1, 0.0, 0.0, 1.1, 1.1, false)]
    [InlineData(1.0, 1.1, 0.0, 1.1, 1.1, false)]
    [InlineData(-1.1, -1.1, 0.0, -1.1, -1.1, true)]
    public void FourOfFiveOffCentre(double a, double b, double c, double d, double e, bool raised) =>
        Assert.Equal(raised, Last([a, b, c, d, e]).HasFlag(ControlSignals.FourOfFiveOffCentre));

    [Theory]
    [InlineData(14, 1.0, false)]
    [InlineData(15, 1.0, true)]
    [InlineData(15, 1.0001, false)]
    public void HuggingCentre(int length, double size, bool raised) =>
        Assert.Equal(raised, Last([.. Enumerable.Range(0, length).Select(i => i % 2 == 0 ? size : -size)]).HasFlag(ControlSignals.HuggingCentre));

    [Theory]
    [InlineData(7, true, false)]
    [InlineData(8, true, true)]
    [InlineData(8, false, false)]
    public void AvoidingCentre(int length, bool bothSides, bool raised) =>
        Assert.Equal(
            raised,
            Last([.. Enumerable.Range(0, length).Select(i => bothSides && i % 3 == 0 ? -1.5 : 1.5)]).HasFlag(ControlSignals.AvoidingCentre));

    // ISO 7870-2 (from memory): seven on one side, seven in a trend.
    [Fact]
    public void Iso7870Part2_CountsToSeven()
    {
        Assert.Equal(ControlSignals.None, Last([.. Enumerable.Repeat(0.5, 6)], RunRules.Iso7870Part2));
        Assert.Equal(ControlSignals.RunOnOneSide, Last([.. Enumerable.Repeat(0.5, 7)], RunRules.Iso7870Part2));
        Assert.Equal(ControlSignals.None, Last([-1, -0.7, -0.4, -0.1, 0.2, 0.5], RunRules.Iso7870Part2));
        Assert.Equal(ControlSignals.Trend, Last([-1, -0.7, -0.4, -0.1, 0.2, 0.5, 0.8], RunRules.Iso7870Part2));
    }

    [Fact]
    public void Pattern_SwitchedOff_RaisesNothing() =>
        Assert.Equal(ControlSignals.BeyondLimits, Last([4, 0, 4], new RunRules { Patterns = ControlSignals.BeyondLimits }));

    // Theory: P(|z| > 3) = 0.0027 per point of a stable, normal process; four standard deviations of the count.
    [Fact]
    public void BeyondLimits_StableProcess_OneIn370()
    {
        double[] drawn = Draws.Normal(41, 200_000);

        long found = SignalCount.Of(Standard, new RunRules { Patterns = ControlSignals.BeyondLimits }, drawn).PointsWithSignals;

        Assert.InRange(found, 540 - (4 * Math.Sqrt(540)), 540 + (4 * Math.Sqrt(540)));
    }

    [Theory]
    [InlineData(4, 6)]
    [InlineData(16, 6)]
    [InlineData(9, 4)]
    [InlineData(9, 16)]
    public void Rules_LengthOutsideItsRange_AreRefused(int run, int trend) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new ControlState(Standard, RunRules.All with { RunLength = run, TrendLength = trend }));

    private static ControlSignals Last(double[] values, RunRules? rules = null)
    {
        ControlState state = new(Standard, rules ?? RunRules.All);
        ControlSignals last = ControlSignals.None;
        foreach (double value in values)
        {
            last = state.Add(value).Signals;
        }

        return last & ~ControlSignals.SpreadBeyondLimits;
    }
}
