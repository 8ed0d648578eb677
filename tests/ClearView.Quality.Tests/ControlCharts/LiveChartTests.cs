using ClearView.Quality.ControlCharts;
using ClearView.Quality.Series;

using FsCheck.Xunit;

namespace ClearView.Quality.Tests.ControlCharts;

public sealed class LiveChartTests
{
    private static readonly ControlLimits Single = ControlLimits.Given(ControlChartKind.Individuals, 0, 1);

    // In whatever order readings arrive: after each, the chart is that of the readings so far, fed in order from the start.
    [Property(Replay = "(20240413,15)", MaxTest = 2)]
    public void Add_AnyOrderOfArrival_GivesTheChartOfTheSortedOrder(int seed)
    {
        SeriesReading[] series = ChartExamples.Series(seed, 2300);
        foreach (ChartDefinition chart in ChartExamples.Charts(series))
        {
            (SeriesReading[] arrivals, int rebuilds) = (Shuffled(series, seed, reach: 3000), 0);
            List<SeriesReading> sofar = [];
            LiveChart live = new(chart);
            foreach ((int i, SeriesReading reading) in arrivals.Index())
            {
                Insert(sofar, reading);
                LiveAnswer answer = live.Add(reading);
                if (answer.Placement == LivePlacement.NeedsRebuild)
                {
                    rebuilds++;
                    live = new LiveChart(chart);
                    sofar.ForEach(one => live.Add(one));
                }

                if (i % 97 == 0 || i == arrivals.Length - 1)
                {
                    AssertIsChartOf(sofar, chart, live);
                }
            }

            Assert.InRange(rebuilds, 1, arrivals.Length / 2);
        }
    }

    // What is told of a reading in time is what the chart shows at the point that it completes.
    [Fact]
    public void Add_InTime_TellsTheSignalsOfEachPoint()
    {
        SeriesReading[] series = ChartExamples.Series(3, 3000);
        foreach (ChartDefinition chart in ChartExamples.Charts(series))
        {
            LiveChart live = new(chart);
            List<ControlSignals> told = [];
            foreach (SeriesReading reading in series)
            {
                LiveAnswer answer = live.Add(reading);
                Assert.Equal((LivePlacement.Newest, false), (answer.Placement, answer.Revised));
                told.Add(answer.Signals.Aggregate(ControlSignals.None, (all, one) => all | one.Raised));
            }

            Assert.Equal(ChartExamples.Raised(chart, series), told);
            Assert.Contains(told, signals => signals != ControlSignals.None);
        }
    }

    // By hand: eight on one side are no run of nine; the late ninth, in their midst, completes it at the last of them.
    [Fact]
    public void Add_LateReadingThatCompletesARun_TellsTheLaterPoint()
    {
        LiveChart live = new(Chart());
        foreach (int minute in new[] { 0, 1, 2, 3, 5, 6, 7, 8 })
        {
            Assert.Empty(live.Add(Of(minute, 0.5, order: minute)).Signals);
        }

        LiveAnswer late = live.Add(Of(4, 0.4, order: 9));

        Assert.Equal((LivePlacement.Inserted, true), (late.Placement, late.Revised));
        LiveSignal signal = Assert.Single(late.Signals);
        Assert.Equal((ControlSignals.RunOnOneSide, At(8)), (signal.Raised, signal.Point.MeasuredAt));
        Assert.Equal(ControlSignals.RunOnOneSide, live.Recall(At(8).UtcTicks, 8).Signals.Single().Raised);
    }

    // Told again, signals of later points would be mistaken for new ones.
    [Fact]
    public void Add_LateReading_TellsLaterPointsOnlyWhatIsNew()
    {
        LiveChart live = new(Chart());
        live.Add(Of(0, 0, order: 0));
        Assert.NotEmpty(live.Add(Of(9, 9, order: 1)).Signals);

        LiveAnswer late = live.Add(Of(5, -9, order: 2));

        LiveSignal own = Assert.Single(late.Signals);
        Assert.Equal(At(5), own.Point.MeasuredAt);
        Assert.True(own.Raised.HasFlag(ControlSignals.BeyondLimits));
    }

    // Two posts at once: the one that was recorded first reaches the chart second, which does not make it late.
    [Fact]
    public void Add_RecordedFirstButSecondToArrive_IsNotLate()
    {
        LiveChart live = new(Chart());
        live.Add(Of(2, 0.1, order: 2));

        LiveAnswer answer = live.Add(Of(1, 9, order: 1));

        Assert.Equal((LivePlacement.Inserted, false), (answer.Placement, answer.Revised));
        Assert.NotEmpty(answer.Signals);
    }

    [Fact]
    public void Add_EqualTimes_StandInTheOrderOfRecording()
    {
        ChartDefinition chart = Chart();
        LiveChart live = new(chart);
        SeriesReading[] series = [Of(1, 0, 1), Of(1, 4, 2), Of(1, 0, 3)];
        live.Add(series[0]);
        live.Add(series[2]);
        LiveAnswer between = live.Add(series[1]);

        Assert.Equal((LivePlacement.Inserted, false), (between.Placement, between.Revised));
        Assert.Equal(ChartExamples.Raised(chart, series), live.Raised.ToArray());
    }

    [Fact]
    public void Add_OlderThanWhatIsKept_NeedsARebuildAndChangesNothing()
    {
        LiveChart live = new(Chart());
        for (int i = 0; i < 1025; i++)
        {
            live.Add(Of(i, 0.1, i));
        }

        ControlSignals[] before = live.Raised.ToArray();
        Assert.Equal(LivePlacement.NeedsRebuild, live.Add(new SeriesReading(At(511).UtcTicks, 510, 9, "", double.NaN, double.NaN)).Placement);
        Assert.Equal(before, live.Raised.ToArray());
        Assert.Equal(1025, live.Readings);
        Assert.Equal(LivePlacement.NeedsRebuild, live.Recall(At(3).UtcTicks, 3).Placement);
        Assert.Equal(LivePlacement.Inserted, live.Add(new SeriesReading(At(511).UtcTicks, 5000, 9, "", double.NaN, double.NaN)).Placement);
    }

    [Fact]
    public void Add_NotFinite_ChangesNothing()
    {
        LiveChart live = new(Chart());
        live.Add(Of(5, 0, 0));

        Assert.Throws<ArgumentException>(() => live.Add(Of(6, double.NaN, 1)));
        Assert.Throws<ArgumentException>(() => live.Add(Of(1, double.PositiveInfinity, 2)));

        Assert.Equal(1, live.Readings);
    }

    private static void AssertIsChartOf(List<SeriesReading> sorted, ChartDefinition chart, LiveChart live)
    {
        ReadOnlySpan<ControlSignals> raised = live.Raised;
        Assert.Equal(sorted.Count, live.Readings);
        Assert.InRange(raised.Length, 1, LiveChart.MostKept);
        Assert.Equal(ChartExamples.Raised(chart, sorted)[^raised.Length..], raised.ToArray());
    }

    // Each reading is held back by up to so many places; most by a few.
    private static SeriesReading[] Shuffled(SeriesReading[] series, int seed, int reach)
    {
        Random random = new(seed);
        return [.. series.Index().OrderBy(one => one.Index + (reach * Math.Pow(random.NextDouble(), 20))).Select(one => one.Item)];
    }

    private static void Insert(List<SeriesReading> sorted, SeriesReading reading)
    {
        int place = sorted.Count;
        while (place > 0 && (sorted[place - 1].MeasuredAtTicks, sorted[place - 1].RecordedOrder).CompareTo((reading.MeasuredAtTicks, reading.RecordedOrder)) > 0)
        {
            place--;
        }

        sorted.Insert(place, reading);
    }

    private static ChartDefinition Chart() => new([new("only", DateTimeOffset.MinValue, Single)], RunRules.All, Subgrouping.None);

    private static DateTimeOffset At(int minute) => ChartExamples.Start.AddMinutes(minute);

    private static SeriesReading Of(int minute, double value, long order) =>
        new(At(minute).UtcTicks, order, value, "", double.NaN, double.NaN);
}
