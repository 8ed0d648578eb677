using ClearView.Quality.ControlCharts;

using FsCheck.Xunit;

namespace ClearView.Quality.Tests.ControlCharts;

public sealed class ControlSeriesTests
{
    private static readonly DateTimeOffset Start = new(2024, 3, 1, 6, 0, 0, TimeSpan.Zero);

    private static readonly ControlLimits Standard = ControlLimits.Given(ControlChartKind.Individuals, 0, 1);

    // However the points arrive, the chart is that of their order in time: on every kind of chart, over checkpoints and phases.
    [Property(Replay = "(20240413,15)", MaxTest = 30)]
    public void Add_AnyOrder_GivesTheChartOfTheOrderInTime(int seed)
    {
        foreach (ControlLimits limits in new[] { Standard, Standard.WithEwma(EwmaSettings.Usual), Standard.WithCusum(CusumSettings.Usual) })
        {
            ControlPhase[] phases = [new("first", Start, limits), new("second", Start.AddMinutes(333), limits)];
            SeriesPoint[] inTime = [.. Draws.Normal(seed, 700, 0.4).Select((value, i) => SeriesPoint.OfReading(Start.AddMinutes(i), value))];
            SeriesPoint[] shuffled = [.. inTime];
            new Random(seed).Shuffle(shuffled);

            ControlSeries series = Fill(phases, inTime);
            ControlSeries late = Fill(phases, shuffled);

            Assert.Equal(series.Signals.ToArray(), late.Signals.ToArray());
            Assert.Equal(series.Draw().Select(point => point.Signals), late.Signals.ToArray());
            Assert.Equal(inTime, late.Points.ToArray());
        }
    }

    [Fact]
    public void Add_LatePoint_SaysFromWhereTheChartWasRevised()
    {
        ControlSeries series = Fill([new("only", Start, Standard)], [.. Enumerable.Range(0, 9).Where(i => i != 4).Select(i => SeriesPoint.OfReading(Start.AddHours(i), 0.5))]);
        Assert.All(series.Signals.ToArray(), signal => Assert.Equal(ControlSignals.None, signal));

        SeriesRevision revision = series.Add(SeriesPoint.OfReading(Start.AddHours(4), 0.5));

        Assert.True(revision.Revised);
        Assert.Equal(4, revision.Position);
        Assert.Equal(Start.AddHours(4), revision.RevisedFrom);
        // The ninth on one side is there now.
        Assert.Equal([8], revision.Appeared);
        Assert.Empty(revision.Disappeared);
    }

    [Fact]
    public void Add_LatePointThatBreaksARun_TakesItsSignalBack()
    {
        ControlSeries series = Fill([new("only", Start, Standard)], [.. Enumerable.Range(0, 9).Select(i => SeriesPoint.OfReading(Start.AddHours(i), 0.5))]);
        Assert.Equal(ControlSignals.RunOnOneSide, series.Signals[^1]);

        SeriesRevision revision = series.Add(SeriesPoint.OfReading(Start.AddHours(3.5), -0.5));

        Assert.Equal([9], revision.Disappeared);
    }

    [Fact]
    public void Add_InTime_RevisesNothing()
    {
        ControlSeries series = new([new("only", Start, Standard)], RunRules.All);

        Assert.False(series.Add(SeriesPoint.OfReading(Start, 0)).Revised);
        SeriesRevision same = series.Add(SeriesPoint.OfReading(Start, 4));
        Assert.False(same.Revised);
        Assert.Equal(1, same.Position);
        Assert.True(same.Point.Signals.HasFlag(ControlSignals.BeyondLimits));
    }

    [Fact]
    public void Add_RefusedPoint_LeavesTheChartAsItWas()
    {
        ControlSeries series = Fill([new("only", Start, Standard)], [.. Enumerable.Range(0, 5).Select(i => SeriesPoint.OfReading(Start.AddHours(i), 0))]);

        Assert.Throws<ArgumentException>(() => series.Add(SeriesPoint.OfReading(Start.AddHours(1.5), double.NaN)));
        Assert.Throws<ArgumentException>(() => series.Add(new SeriesPoint(Start.AddHours(1.5), new Subgroup(5, 0, 1, 1))));
        Assert.Throws<ArgumentException>(() => series.Add(new SeriesPoint(Start.AddHours(9), new Subgroup(5, 0, 1, 1))));

        Assert.Equal(5, series.Count);
        Assert.Equal(5, series.Signals.Length);
    }

    [Fact]
    public void Constructor_NoPhaseOrTwoAtOnce_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => new ControlSeries([], RunRules.All));
        Assert.Throws<ArgumentException>(() => new ControlSeries([new("a", Start, Standard), new("b", Start, Standard)], RunRules.All));
    }

    private static ControlSeries Fill(ControlPhase[] phases, SeriesPoint[] points)
    {
        ControlSeries series = new([.. phases], RunRules.All);
        foreach (SeriesPoint point in points)
        {
            series.Add(point);
        }

        return series;
    }
}
