using ClearView.Contract.ControlCharts;
using ClearView.Optics.Evaluations;
using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;

using ControlPattern = ClearView.V1.ControlPattern;

namespace ClearView.Contract.Tests.ControlCharts;

public sealed class SignalWordsTests
{
    private static readonly ControlLimits Single = ControlLimits.Given(ControlChartKind.Individuals, 2.5, 0.13);

    [Theory]
    [InlineData(3.4, "beyond the upper control limit: haze 3.40 %, limit 2.89 %")]
    [InlineData(1.4, "beyond the lower control limit: haze 1.40 %, limit 2.11 %")]
    [InlineData(2.8901, "beyond the upper control limit: haze 2.8901 %, limit 2.8900 %")]
    public void Of_BeyondLimits_NamesBothFigures(double value, string words) =>
        Assert.Equal(words, Of(ControlPattern.BeyondLimits, Single, Subgrouping.None, value));

    [Fact]
    public void Of_MovingRange_NamesIt() => Assert.Equal(
        "spread beyond its upper limit: moving range of haze 1.00 %, limit 0.48 %",
        Of(ControlPattern.SpreadBeyondLimits, Single, Subgrouping.None, 2.5, 3.5));

    [Fact]
    public void Of_Run_NamesSideAndLength() => Assert.Equal(
        "run on one side: 7 points or more in a row below the centre line of 2.50 %; haze 2.40 %",
        Of(ControlPattern.RunOnOneSide, Single, Subgrouping.None, 2.4));

    [Fact]
    public void Of_Subgroup_NamesTheMean() => Assert.Equal(
        "beyond the upper control limit: mean haze 3.00 %, limit 2.78 %",
        Of(ControlPattern.BeyondLimits, ControlLimits.Given(ControlChartKind.AveragesWithRange, 2.5, 0.13, 2), Subgrouping.Consecutive(2), 2.9, 3.1));

    [Fact]
    public void Of_Ewma_NamesTheAverage() => Assert.Equal(
        "beyond the upper limit of the exponentially weighted moving average: moving average of haze 2.70 %, limit 2.58 %",
        Of(ControlPattern.EwmaBeyondLimits, Single.WithEwma(EwmaSettings.Usual), Subgrouping.None, 3.5));

    [Fact]
    public void Of_Cusum_NamesTargetAndInterval() => Assert.Equal(
        "cumulative sum of haze below the target of 2.50 %: 1.44 %, decision interval 0.65 %",
        Of(ControlPattern.SumBelowTarget, Single.WithCusum(CusumSettings.Usual), Subgrouping.None, 1));

    // Each pattern has words of its own, with a figure, for each side.
    [Fact]
    public void Of_EveryPattern_SaysSomethingOfItsOwn()
    {
        foreach (double value in new[] { 1.0, 4.0 })
        {
            string[] words = [.. Enum.GetValues<ControlPattern>().Skip(1).Select(pattern => Of(pattern, Single, Subgrouping.None, 2.5, value))];

            Assert.Equal(12, words.Distinct().Count());
            Assert.All(words, word => Assert.Contains(" %", word, StringComparison.Ordinal));
        }
    }

    [Fact]
    public void ControlPatterns_AreTheSignalsByName()
    {
        foreach (ControlPattern pattern in Enum.GetValues<ControlPattern>().Skip(1))
        {
            Assert.Equal(pattern.ToString(), ControlPatterns.SignalOf(pattern).ToString());
            Assert.Equal([pattern], ControlPatterns.Of(ControlPatterns.SignalOf(pattern)));
        }

        Assert.Equal([ControlPattern.BeyondLimits, ControlPattern.SumBelowTarget], ControlPatterns.Of(ControlSignals.BeyondLimits | ControlSignals.SumBelowTarget));
        Assert.Empty(ControlPatterns.Of(ControlSignals.None));
    }

    private static string Of(ControlPattern pattern, ControlLimits limits, Subgrouping subgrouping, params double[] values)
    {
        ChartDefinition chart = new([new("only", DateTimeOffset.MinValue, limits)], RunRules.Iso7870Part2, subgrouping);
        ChartFeed feed = new(chart);
        FedPoint point = default;
        foreach ((int i, double value) in values.Index())
        {
            feed.Add(new SeriesReading(i, i, value, "", double.NaN, double.NaN), out point);
        }

        Assert.True(Measurand.TryFind("haze", out Measurand? haze));
        return SignalWords.Of(pattern, point, chart, haze);
    }
}
