using ClearView.Quality.Series;
using ClearView.Records.Model;
using ClearView.Server.Live;
using ClearView.Server.Tests.Services;
using ClearView.V1;

namespace ClearView.Server.Tests.Live;

/// <summary>When a chart is read anew from the store, and what is told meanwhile. Limits are 1.7 % and 2.3 %.</summary>
public sealed class WatchedChartTests : IDisposable
{
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly ManualClock _clock = new();
    private readonly ListSeriesStore _store;
    private readonly FlooredStore _recorded = new();
    private readonly WatchedChart _chart;

    public WatchedChartTests()
    {
        _store = new ListSeriesStore(_clock, TimeSpan.FromSeconds(1));
        _chart = new WatchedChart(
            new NamedControlChart
            {
                ControlChartName = new ControlChartName { Name = "line-3-haze", Version = 1 },
                ControlChart = ChartExamples.Store().ControlChart,
            },
            _store,
            _recorded,
            _clock);
    }

    public void Dispose() => _chart.Dispose();

    [Fact]
    public async Task Add_InTime_ReadsTheStoreOnce()
    {
        for (var i = 0; i < 3000; i++)
        {
            Assert.Empty(await PostAsync(i, 2 + (i % 2 * 0.1) - 0.05));
        }

        Assert.Equal([ControlPattern.BeyondLimits], Patterns(await PostAsync(3000, 2.31)));
        Assert.Equal(1, _store.Reads);
    }

    [Fact]
    public async Task Add_OlderThanWhatIsKept_ReadsTheStoreAndTellsItsSignals()
    {
        await FillAsync(3000);
        _clock.Advance(TimeSpan.FromSeconds(10));

        var late = await PostAsync(7, 2.5);

        Assert.Equal([ControlPattern.BeyondLimits, ControlPattern.SpreadBeyondLimits], Patterns(late));
        Assert.All(late, signal => Assert.True(signal.Revised));
        Assert.Equal(2, _store.Reads);
    }

    // A line that sends an old day again would otherwise have the year read for each reading.
    [Fact]
    public async Task Add_OldReadingsOneAfterTheOther_ReadsTheStoreATenthOfTheTime()
    {
        await FillAsync(3000);
        for (var i = 0; i < 50; i++)
        {
            Assert.Empty(await PostAsync(7 + i, 2.5));
            Assert.Equal([ControlPattern.BeyondLimits], Patterns(await PostAsync(3000 + (2 * i), 2.31)));
            Assert.Empty(await PostAsync(3001 + (2 * i), 2));
        }

        Assert.Equal(1, _store.Reads);

        // The pause is over: the next reading, old or new, takes them all in.
        _clock.Advance(TimeSpan.FromSeconds(10));
        Assert.Equal([ControlPattern.BeyondLimits], Patterns(await PostAsync(4000, 2.31)));
        Assert.Equal(2, _store.Reads);
        Assert.Empty(await PostAsync(4001, 2));
        Assert.Equal(2, _store.Reads);
    }

    // Two posts at once: the chart is built for the second with both in the store, before the first asks.
    [Fact]
    public async Task Add_StoredBeforeTheBuild_IsTakenOnce()
    {
        var first = Store(1, 2.5);
        var second = Store(2, 1.5);

        Assert.Equal([ControlPattern.BeyondLimits, ControlPattern.SpreadBeyondLimits], Patterns(await _chart.AddAsync(second, isLeft: false, CancellationToken.None)));
        Assert.Equal([ControlPattern.BeyondLimits], Patterns(await _chart.AddAsync(first, isLeft: false, CancellationToken.None)));

        // With the first taken twice the moving range would be 0.5.
        Assert.Equal([ControlPattern.BeyondLimits, ControlPattern.SpreadBeyondLimits], Patterns(await PostAsync(3, 2.5)));
        Assert.Equal(1, _store.Reads);
    }

    // Servers that share a store commit in another order than they number.
    [Fact]
    public async Task Add_CommittedAfterTheBuildWithALowerPlace_IsTaken_AndOnceOnly()
    {
        _recorded.Complete = 1;
        Store(minute: 1, 2, sequence: 1);
        await _chart.AddAsync(Store(minute: 3, 2, sequence: 3), isLeft: false, CancellationToken.None);

        // Places 2 and 4 are other servers'; place 3 was on the chart when it was built.
        await _chart.TakeOtherAsync(Reading(minute: 3, 2, sequence: 3));
        await _chart.TakeOtherAsync(Reading(minute: 1, 2, sequence: 1));
        await _chart.TakeOtherAsync(Reading(minute: 2, 2.29, sequence: 2));
        await _chart.TakeOtherAsync(Reading(minute: 4, 2, sequence: 4));

        // Only from 2.29, of place 2, to 1.9 is the moving range beyond 0.3686.
        Assert.Equal([ControlPattern.SpreadBeyondLimits], Patterns(await _chart.AddAsync(Reading(minute: 2, 1.9, sequence: 5), isLeft: false, CancellationToken.None)));
        Assert.Equal(1, _store.Reads);
    }

    [Fact]
    public async Task TakeOther_OlderThanWhatIsKept_HasTheChartReadAnewWithTheNextReading()
    {
        await FillAsync(3000);
        _clock.Advance(TimeSpan.FromSeconds(10));

        await _chart.TakeOtherAsync(Store(7, 2.5));
        Assert.Equal(1, _store.Reads);
        await PostAsync(3000, 2);

        Assert.Equal(2, _store.Reads);
    }

    [Fact]
    public async Task Add_StoreFailed_BuildsWithTheNextReading()
    {
        _store.FailsOnce = true;
        await Assert.ThrowsAsync<StoreUnavailableException>(() => PostAsync(1, 2));

        Assert.Equal([ControlPattern.SpreadBeyondLimits], Patterns(await PostAsync(2, 1.6)).Skip(1));
        Assert.Equal(2, _store.Reads);
    }

    [Fact]
    public void ReadingOf_AnotherLineOrMeasurand_IsNone()
    {
        var entry = new ReadingEntry
        {
            Id = new Guid(1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11),
            MeasuredAt = Start,
            Line = "line 3",
            Measurement = new byte[] { 1 },
            Method = new byte[] { 1 },
            Evaluation = new byte[] { 1 },
            SoftwareVersion = "1",
            Values = [new MeasurandValue("luminous_transmittance", 90), new MeasurandValue("haze", 2.1)],
        };

        Assert.Equal((2.1, 5L), (_chart.ReadingOf(entry, 5)!.Value.Value, _chart.ReadingOf(entry, 5)!.Value.RecordedOrder));
        Assert.Null(_chart.ReadingOf(entry with { Line = "line 4" }, 5));
        Assert.Null(_chart.ReadingOf(entry with { Values = entry.Values[..1] }, 5));
    }

    private async Task FillAsync(int count)
    {
        for (var i = 0; i < count; i++)
        {
            await PostAsync(i, 2 + (i % 2 * 0.1) - 0.05);
        }
    }

    private Task<List<RaisedSignal>> PostAsync(int minute, double haze) => _chart.AddAsync(Store(minute, haze), isLeft: false, CancellationToken.None);

    private SeriesReading Store(int minute, double haze)
    {
        _recorded.Complete = _store.Rows.Count + 1;
        return Store(minute, haze, _store.Rows.Count + 1);
    }

    private SeriesReading Store(int minute, double haze, long sequence)
    {
        _store.Rows.Add(new SeriesRow(Start.AddMinutes(minute).UtcTicks, sequence, haze, "", double.NaN, double.NaN));
        return Reading(minute, haze, sequence);
    }

    private static SeriesReading Reading(int minute, double haze, long sequence) =>
        new(Start.AddMinutes(minute).UtcTicks, sequence, haze, "", double.NaN, double.NaN);

    private static IEnumerable<ControlPattern> Patterns(IEnumerable<RaisedSignal> signals) => signals.Select(signal => signal.Pattern);
}
