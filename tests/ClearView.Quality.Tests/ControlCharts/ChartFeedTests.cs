using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;

using FsCheck.Xunit;

namespace ClearView.Quality.Tests.ControlCharts;

public sealed class ChartFeedTests
{
    private static readonly ControlLimits Range = ControlLimits.Given(ControlChartKind.AveragesWithRange, 0, 1, 3);

    // The other way to the same chart: subgroups formed phase by phase from all readings at once, then a ControlSeries.
    [Property(Replay = "(20240413,15)", MaxTest = 20)]
    public void Add_EveryChart_GivesThePointsOfTheWholeSeries(int seed)
    {
        SeriesReading[] series = ChartExamples.Series(seed, 900);
        foreach (ChartDefinition chart in ChartExamples.Charts(series))
        {
            (List<FedPoint> points, ChartFeed feed) = Feed(chart, series);
            (List<SeriesPoint> expected, int leftOut) = Whole(chart, series);
            ControlSeries whole = new(chart.Phases, chart.Rules);
            expected.ForEach(point => whole.Add(point));

            Assert.Equal(expected.Select(point => point.MeasuredAt), points.Select(point => point.MeasuredAt));
            Assert.Equal(whole.Signals.ToArray(), points.Select(point => point.Point.Signals));
            foreach ((SeriesPoint one, FedPoint other) in expected.Zip(points))
            {
                Assert.Equal(one.Subgroup.Size, other.ReadingCount);
                Assert.Equal(one.Subgroup.Mean, other.Point.Value, 1e-12);
            }

            Assert.Equal(series.Length, feed.Readings);
            Assert.Equal(leftOut, feed.LeftOut + feed.Open);
            Assert.Equal(series.Length, points.Sum(point => point.ReadingCount) + feed.LeftOut + feed.Open);
        }
    }

    [Fact]
    public void Copy_GoesOnByItself()
    {
        SeriesReading[] series = ChartExamples.Series(5, 400);
        foreach (ChartDefinition chart in ChartExamples.Charts(series))
        {
            ChartFeed feed = new(chart);
            Array.ForEach(series[..207], reading => feed.Add(reading, out _));
            ChartFeed copy = feed.Copy();
            List<FedPoint> one = Rest(feed, series[207..]);

            Assert.Equal(one, Rest(copy, series[207..]));
            Assert.NotEmpty(one);
        }
    }

    // By hand: of 1, 2, 3 | 4, 5 a phase cuts off two; 7, 8, 9 is the first subgroup of the new phase.
    [Fact]
    public void Add_PhaseBeginsInASubgroup_DropsAndCountsIt()
    {
        ChartDefinition chart = Chart(Subgrouping.Consecutive(3), Range, At(5));

        (List<FedPoint> points, ChartFeed feed) = Feed(chart, [Of(0, 1), Of(1, 2), Of(2, 3), Of(3, 4), Of(4, 5), Of(5, 7), Of(6, 8), Of(7, 9)]);

        Assert.Equal([2.0, 8.0], points.Select(point => point.Point.Value));
        Assert.Equal([0, 1], points.Select(point => point.Phase));
        Assert.Equal([0L, 5L], points.Select(point => point.FirstReading));
        Assert.All(points, point => Assert.Equal(0, point.Point.Index));
        Assert.Equal(2, feed.LeftOut);
    }

    [Fact]
    public void Add_LabelEndsAtThePhase_ClosesItAsItsLastPoint()
    {
        ChartDefinition chart = Chart(Subgrouping.ByLabel, Range, At(2));

        (List<FedPoint> points, ChartFeed feed) = Feed(chart, [Of(0, 1, "R1"), Of(1, 2, "R1"), Of(2, 3, "R2"), Of(3, 5, "R2"), Of(4, 1, "R3")]);

        Assert.Equal([("R1", 0, 1.5, At(1)), ("R2", 1, 4.0, At(3))], points.Select(point => (point.Label, point.Phase, point.Point.Value, point.MeasuredAt)));
        Assert.Equal(0, feed.LeftOut);
        Assert.Equal(1, feed.Open);
    }

    [Fact]
    public void Add_LabelReachesOverThePhase_DropsWhatWasBeforeIt()
    {
        ChartDefinition chart = Chart(Subgrouping.ByLabel, Range, At(2));

        (List<FedPoint> points, ChartFeed feed) = Feed(chart, [Of(0, 1, "R1"), Of(1, 2, "R1"), Of(2, 3, "R1"), Of(3, 5, "R1"), Of(4, 1, "R3")]);

        FedPoint only = Assert.Single(points);
        Assert.Equal((1, 4.0, 2L), (only.Phase, only.Point.Value, only.FirstReading));
        Assert.Equal(2, feed.LeftOut);
    }

    [Fact]
    public void Add_WithoutLabel_EndsASubgroupAndIsLeftOut()
    {
        (List<FedPoint> points, ChartFeed feed) = Feed(Chart(Subgrouping.ByLabel, Range), [Of(0, 1, "R1"), Of(1, 3, "R1"), Of(2, 9, ""), Of(3, 5, "R1")]);

        Assert.Equal(2, Assert.Single(points).Point.Value);
        Assert.Equal((1L, 1), (feed.LeftOut, feed.Open));
    }

    // 25 readings have factors of the range, 26 have none.
    [Theory]
    [InlineData(25, 1, 0)]
    [InlineData(26, 0, 26)]
    public void Add_SubgroupTooLargeForTheRange_IsLeftOut(int size, int points, int leftOut)
    {
        (List<FedPoint> drawn, ChartFeed feed) = Feed(
            Chart(Subgrouping.ByLabel, Range), [.. Enumerable.Range(0, size).Select(i => Of(i, i % 2, "R1")), Of(size, 0, "R2")]);

        Assert.Equal(points, drawn.Count);
        Assert.Equal(leftOut, feed.LeftOut);
    }

    [Fact]
    public void Add_OutOfOrderOrNotFinite_IsRefusedAndChangesNothing()
    {
        ChartFeed feed = new(Chart(Subgrouping.Consecutive(3), Range, At(9)));
        feed.Add(Of(3, 1), out _);

        Assert.Throws<ArgumentException>(() => feed.Add(Of(2, 1), out _));
        Assert.Throws<ArgumentException>(() => feed.Add(Of(10, double.NaN), out _));

        Assert.Equal(1, feed.Readings);
        Assert.Equal(1, feed.Open);
    }

    [Fact]
    public void Definition_ThatDoesNotFit_IsRefused()
    {
        ControlLimits single = ControlLimits.Given(ControlChartKind.Individuals, 0, 1);

        Assert.Throws<ArgumentException>(() => new ChartDefinition([], RunRules.All, Subgrouping.None));
        Assert.Throws<ArgumentException>(() => new ChartDefinition([new("a", At(1), single), new("b", At(1), single)], RunRules.All, Subgrouping.None));
        Assert.Throws<ArgumentException>(() => new ChartDefinition([new("a", At(1), single)], RunRules.All, Subgrouping.Consecutive(2)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ChartDefinition([new("a", At(1), single)], new RunRules { RunLength = 4 }, Subgrouping.None));
        Assert.Throws<ArgumentOutOfRangeException>(() => Subgrouping.Consecutive(1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Subgrouping.Consecutive(1001));
    }

    private static (List<FedPoint> Points, ChartFeed Feed) Feed(ChartDefinition chart, SeriesReading[] series)
    {
        ChartFeed feed = new(chart);
        return (Rest(feed, series), feed);
    }

    private static List<FedPoint> Rest(ChartFeed feed, SeriesReading[] series)
    {
        List<FedPoint> points = [];
        foreach (SeriesReading reading in series)
        {
            if (feed.Add(reading, out FedPoint point))
            {
                points.Add(point);
            }
        }

        return points;
    }

    private static (List<SeriesPoint> Points, int LeftOut) Whole(ChartDefinition chart, SeriesReading[] series)
    {
        List<SeriesPoint> points = [];
        int[] phases = [.. series.Select(reading => Math.Max(0, chart.Phases.Count(phase => phase.From <= reading.MeasuredAt) - 1))];
        int taken = 0;
        for (int first = 0; first < series.Length;)
        {
            int end = first;
            bool Goes(int i) => i < series.Length && phases[i] == phases[first] && (chart.Subgrouping.IsByLabel
                ? series[i].Label == series[first].Label
                : i - first < chart.Subgrouping.ConsecutiveCount);
            while (Goes(end))
            {
                end++;
            }

            bool complete = chart.Subgrouping.IsByLabel
                ? series[first].Label.Length > 0 && end < series.Length && series[end].Label != series[first].Label
                : end - first == chart.Subgrouping.ConsecutiveCount;
            if (complete)
            {
                points.Add(new SeriesPoint(series[end - 1].MeasuredAt, Subgroup.Of([.. series[first..end].Select(reading => reading.Value)])));
                taken += end - first;
            }

            first = end;
        }

        return (points, series.Length - taken);
    }

    private static ChartDefinition Chart(Subgrouping subgrouping, ControlLimits limits, params DateTimeOffset[] later) =>
        new([new("first", At(-100), limits), .. later.Select(from => new ControlPhase("later", from, limits))], RunRules.All, subgrouping);

    private static DateTimeOffset At(int minute) => ChartExamples.Start.AddMinutes(minute);

    private static SeriesReading Of(int minute, double value, string label = "") =>
        new(At(minute).UtcTicks, minute, value, label, double.NaN, double.NaN);
}
