using ClearView.Records.Model;
using ClearView.V1;

using Microsoft.Extensions.DependencyInjection;

namespace ClearView.Server.Tests.Services;

public sealed class LiveSignalTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task PostReading_BeyondTheLimits_ReturnsTheSignalOnce()
    {
        await using var server = await TestServer.StartAsync();
        await server.ControlCharts.StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        Assert.Empty((await ChartExamples.PostAsync(server, 0, 0, 2)).Signals);

        var posted = await ChartExamples.PostAsync(server, 1, 1, 2.35);
        var again = await ChartExamples.PostAsync(server, 1, 1, 2.35);
        var elsewhere = await ChartExamples.PostAsync(server, 2, 2, 2.9, "line 4");

        var signal = Assert.Single(posted.Signals);
        Assert.Equal(
            new RaisedSignal
            {
                ControlChartName = new ControlChartName { Name = "line-3-haze", Version = 1 },
                Measurand = "haze",
                Pattern = ControlPattern.BeyondLimits,
                Message = "beyond the upper control limit: haze 2.35 %, limit 2.30 %",
                MeasuredAt = ChartExamples.At(1),
            },
            signal);
        Assert.Equal(posted.Signals, again.Signals);
        Assert.Equal(posted.Signals, posted.Reading.Signals);
        Assert.Equal(posted.Reading, again.Reading);
        Assert.Empty(elsewhere.Signals);
    }

    [Fact]
    public async Task PostReading_Late_RevisesTheChart()
    {
        await using var server = await TestServer.StartAsync();
        await server.ControlCharts.StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        foreach (var (i, minute) in new[] { 0, 1, 2, 4, 5, 6 }.Index())
        {
            Assert.Empty((await ChartExamples.PostAsync(server, i, minute, 2.05)).Signals);
        }

        var late = await ChartExamples.PostAsync(server, 9, 3, 2.06);

        // The seventh on one side is there now, at the last of them.
        var signal = Assert.Single(late.Signals);
        Assert.Equal((ControlPattern.RunOnOneSide, ChartExamples.At(6), true), (signal.Pattern, signal.MeasuredAt, signal.Revised));
        var drawn = await ChartExamples.GetAsync(server);
        Assert.Equal((1ul, ChartExamples.At(3)), (drawn[0].Summary.LateReadingCount, drawn[0].Summary.RevisedFrom));
        Assert.Equal([3ul], drawn[1].Points.Where(point => point.Late).Select(point => point.PositionCount));
        Assert.Equal([ControlPattern.RunOnOneSide], drawn[1].Points[6].Patterns);
    }

    // What posts were told is what the chart shows, and a restart changes neither.
    [Theory]
    [InlineData(ControlChartKind.Individuals, "")]
    [InlineData(ControlChartKind.AveragesWithRange, "5")]
    [InlineData(ControlChartKind.AveragesWithStandardDeviation, "roll")]
    [InlineData(ControlChartKind.Ewma, "")]
    [InlineData(ControlChartKind.Cusum, "roll")]
    public async Task PostReading_AcrossARestart_TellsWhatTheChartShows(ControlChartKind kind, string subgroups)
    {
        await using var server = await TestServer.StartAsync();
        var request = ChartExamples.Store(kind: kind);
        request.ControlChart.Subgrouping = subgroups switch
        {
            "" => null,
            "roll" => new Subgrouping { Label = SubgroupLabel.Roll },
            _ => new Subgrouping { ConsecutiveCount = 5 },
        };
        await server.ControlCharts.StoreControlChartAsync(request, cancellationToken: Token);
        List<(Google.Protobuf.WellKnownTypes.Timestamp, ControlPattern)> told = [];
        foreach (var (i, haze) in ChartExamples.Haze(3, 90).Index())
        {
            if (i == 42)
            {
                await server.RestartAsync();
            }

            var posted = await ChartExamples.PostAsync(server, i, i, haze, roll: $"R{i / 4}");
            Assert.All(posted.Signals, signal => Assert.False(signal.Revised));
            told.AddRange(posted.Signals.Select(signal => (signal.MeasuredAt, signal.Pattern)));
        }

        var drawn = await ChartExamples.GetAsync(server);
        var shown = drawn.SelectMany(part => part.Points).SelectMany(point => point.Patterns.Select(pattern => (point.MeasuredAt, pattern)));
        Assert.Equal(shown, told);
        Assert.Contains(told, one => one.Item1.CompareTo(ChartExamples.At(42)) >= 0);
        Assert.Contains(told, one => one.Item1.CompareTo(ChartExamples.At(42)) < 0);
    }

    // In parallel, in any order: whatever the posts met, the chart and the signals of the next reading are those of the order in time.
    [Fact]
    public async Task PostReading_InParallel_KeepsTheChartOfTheOrderInTime()
    {
        await using var server = await TestServer.StartAsync();
        await server.ControlCharts.StoreControlChartAsync(ChartExamples.Store("ewma", ControlChartKind.Ewma), cancellationToken: Token);
        await server.ControlCharts.StoreControlChartAsync(ChartExamples.Store("single"), cancellationToken: Token);
        var haze = ChartExamples.Haze(4, 160);
        var order = Enumerable.Range(0, haze.Length).ToArray();
        new Random(4).Shuffle(order);
        await Task.WhenAll(order.Select(i => ChartExamples.PostAsync(server, i, i, haze[i])));

        var next = await ChartExamples.PostAsync(server, 900, 900, 2.9);

        foreach (var name in new[] { "ewma", "single" })
        {
            var drawn = await ChartExamples.GetAsync(server, name);
            var last = drawn.SelectMany(part => part.Points).Last();
            Assert.Equal(161ul, drawn[0].Summary.PointCount);
            Assert.NotEmpty(last.Patterns);
            Assert.Equal(last.Patterns, next.Signals.Where(signal => signal.ControlChartName.Name == name).Select(signal => signal.Pattern));
        }
    }

    [Fact]
    public async Task StoreControlChart_NextVersion_TakesThePlaceOfTheOneBefore()
    {
        await using var server = await TestServer.StartAsync();
        await server.ControlCharts.StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        Assert.Single((await ChartExamples.PostAsync(server, 0, 0, 2.35)).Signals);

        var wider = ChartExamples.Store();
        wider.ControlChart.Phases[0].Limits.StandardDeviation = 0.2;
        await server.ControlCharts.StoreControlChartAsync(wider, cancellationToken: Token);

        Assert.Empty((await ChartExamples.PostAsync(server, 1, 1, 2.35)).Signals);
        Assert.Equal(2u, Assert.Single((await ChartExamples.PostAsync(server, 2, 2, 2.65)).Signals).ControlChartName.Version);
    }

    [Fact]
    public async Task PostReading_ChartsCannotBeRead_IsStoredWithoutSignals()
    {
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<ISeriesStore, FailingSeriesStore>());
        await server.ControlCharts.StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);

        var posted = await ChartExamples.PostAsync(server, 0, 0, 2.9);

        Assert.False(posted.AlreadyStored);
        Assert.Empty(posted.Signals);
        Assert.Equal(posted.Reading, (await server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = posted.Reading.ReadingId }, cancellationToken: Token)).Reading);
    }
}
