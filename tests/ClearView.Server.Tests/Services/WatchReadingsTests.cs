using ClearView.Server.Watching;
using ClearView.V1;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;

namespace ClearView.Server.Tests.Services;

public sealed class WatchReadingsTests
{
    // Signs of life come fast enough to wait for, and changes are told rather than found by looking.
    private static readonly WatchPace Pace = new(TimeSpan.FromSeconds(30), TimeSpan.Zero, TimeSpan.FromSeconds(30));

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Watch_FromNow_GivesWhatIsStoredAfterItsFirstAnswer_WithSignals()
    {
        await using var server = await StartAsync();
        await server.ControlCharts.StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        await ChartExamples.PostAsync(server, 0, 0, 2);
        using var watch = server.Readings.WatchReadings(new WatchReadingsRequest(), cancellationToken: Token);
        var first = await NextAsync(watch);
        Assert.Null(first.Reading);
        Assert.NotEmpty(first.Position);

        var quiet = await ChartExamples.PostAsync(server, 1, 1, 2);
        var loud = await ChartExamples.PostAsync(server, 2, 2, 2.35);

        Assert.Equal(quiet.Reading, (await NextAsync(watch)).Reading);
        var seen = (await NextAsync(watch)).Reading;
        Assert.Equal(loud.Reading, seen);
        Assert.Equal(loud.Signals, seen.Signals);
        Assert.Equal(ControlPattern.BeyondLimits, Assert.Single(seen.Signals).Pattern);
    }

    [Fact]
    public async Task Watch_ResumedFromAnyPosition_GivesTheRestOnce_AlsoAfterARestart()
    {
        await using var server = await StartAsync();
        for (var i = 0; i < 6; i++)
        {
            await ChartExamples.PostAsync(server, i, 10 - i, 2);
        }

        var all = await TakeAsync(server, new WatchReadingsRequest { FromBeginning = true }, 6);
        await server.RestartAsync();
        await ChartExamples.PostAsync(server, 6, 11, 2);

        for (var i = 0; i < 6; i++)
        {
            var rest = await TakeAsync(server, new WatchReadingsRequest { Position = all[i].Position, OmitSpectra = true }, 6 - i);
            Assert.Equal([.. all.Skip(i + 1).Select(one => one.Reading.ReadingId), rest[^1].Reading.ReadingId], rest.Select(one => one.Reading.ReadingId));
            Assert.Equal(rest.Count, rest.Select(one => one.Reading.ReadingId).Distinct().Count());
        }
    }

    [Fact]
    public async Task Watch_PositionBehindAStoreThatWasPutBack_IsOutOfRange()
    {
        await using var server = await StartAsync();
        await ChartExamples.PostAsync(server, 0, 0, 2);
        await ChartExamples.PostAsync(server, 1, 1, 2);
        var seen = await TakeAsync(server, new WatchReadingsRequest { FromBeginning = true }, 2);
        await using var restored = await StartAsync();
        await ChartExamples.PostAsync(restored, 0, 0, 2);

        using var ahead = restored.Readings.WatchReadings(new WatchReadingsRequest { Position = seen[1].Position }, cancellationToken: Token);
        var error = await Assert.ThrowsAsync<RpcException>(() => NextAsync(ahead));
        using var atTheEnd = restored.Readings.WatchReadings(new WatchReadingsRequest { Position = seen[0].Position }, cancellationToken: Token);
        var end = await NextAsync(atTheEnd);

        Assert.Equal(StatusCode.OutOfRange, error.StatusCode);
        Assert.Contains(seen[0].Position, error.Status.Detail, StringComparison.Ordinal);
        Assert.Equal(seen[0].Position, end.Position);
    }

    [Fact]
    public async Task Watch_Filters_PassOverTheRest()
    {
        await using var server = await StartAsync();
        await server.ControlCharts.StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        await ChartExamples.PostAsync(server, 0, 0, 2.9, "line 4");
        var calm = await ChartExamples.PostAsync(server, 1, 1, 2, roll: "R1");
        var alarm = await ChartExamples.PostAsync(server, 2, 2, 2.35, roll: "R2");
        var line = calm.Reading.Measurement.Identification.Line;

        var byLine = await TakeAsync(server, new WatchReadingsRequest { FromBeginning = true, Line = line }, 2);
        var byRoll = await TakeAsync(server, new WatchReadingsRequest { FromBeginning = true, Roll = "R2" }, 1);
        var alarms = await TakeAsync(server, new WatchReadingsRequest { FromBeginning = true, OnlyAlarms = true }, 1);

        Assert.Equal([calm.Reading.ReadingId, alarm.Reading.ReadingId], byLine.Select(one => one.Reading.ReadingId));
        Assert.Equal(alarm.Reading.ReadingId, byRoll[0].Reading.ReadingId);
        Assert.Equal(alarm.Reading.ReadingId, alarms[0].Reading.ReadingId);
    }

    [Fact]
    public async Task Watch_ThatNobodyReads_HoldsNoPostUp_AndHasEverythingLater()
    {
        const int count = 120;
        await using var server = await StartAsync();
        using var watch = server.Readings.WatchReadings(new WatchReadingsRequest { FromBeginning = true }, cancellationToken: Token);
        for (var i = 0; i < count; i++)
        {
            await ChartExamples.PostAsync(server, i, i, 2);
        }

        List<string> seen = [];
        while (seen.Count < count)
        {
            var answer = await NextAsync(watch);
            if (answer.Reading is { } reading)
            {
                seen.Add(reading.ReadingId);
            }
        }

        Assert.Equal(count, seen.Distinct().Count());
    }

    [Fact]
    public async Task Watch_WithoutReadings_GivesSignsOfLife()
    {
        await using var server = await StartAsync(new WatchPace(TimeSpan.FromMilliseconds(20), TimeSpan.Zero, TimeSpan.FromMilliseconds(20)));
        using var watch = server.Readings.WatchReadings(new WatchReadingsRequest(), cancellationToken: Token);

        for (var i = 0; i < 4; i++)
        {
            Assert.Null((await NextAsync(watch)).Reading);
        }
    }

    [Fact]
    public async Task Watch_WhenTheServerStops_EndsUnavailable()
    {
        await using var server = await StartAsync();
        using var watch = server.Readings.WatchReadings(new WatchReadingsRequest(), cancellationToken: Token);
        await NextAsync(watch);

        var stopping = server.StopAsync();
        var error = await Assert.ThrowsAsync<RpcException>(() => NextAsync(watch));
        await stopping;

        Assert.Equal(StatusCode.Unavailable, error.StatusCode);
    }

    [Theory]
    [InlineData("nonsense", false, "position")]
    [InlineData("AgAAAAAAAAAB", false, "position")]
    [InlineData("AQAAAAAAAAAB", true, "from_beginning")]
    public async Task Watch_WithoutAPlaceToBegin_IsRefusedWithTheField(string position, bool fromBeginning, string field)
    {
        await using var server = await StartAsync();
        using var watch = server.Readings.WatchReadings(new WatchReadingsRequest { Position = position, FromBeginning = fromBeginning }, cancellationToken: Token);

        var error = await Assert.ThrowsAsync<RpcException>(() => NextAsync(watch));

        Assert.Equal(StatusCode.InvalidArgument, error.StatusCode);
        Assert.Equal([field], error.GetRpcStatus()!.GetDetail<Google.Rpc.BadRequest>().FieldViolations.Select(violation => violation.Field));
    }

    private static Task<TestServer> StartAsync(WatchPace? pace = null) => TestServer.StartAsync(services => services.AddSingleton(pace ?? Pace));

    private static async Task<List<WatchReadingsResponse>> TakeAsync(TestServer server, WatchReadingsRequest request, int count)
    {
        using var watch = server.Readings.WatchReadings(request, cancellationToken: Token);
        List<WatchReadingsResponse> taken = [];
        while (taken.Count < count)
        {
            var answer = await NextAsync(watch);
            if (answer.Reading is not null)
            {
                taken.Add(answer);
            }
        }

        return taken;
    }

    private static async Task<WatchReadingsResponse> NextAsync(AsyncServerStreamingCall<WatchReadingsResponse> watch)
    {
        Assert.True(await watch.ResponseStream.MoveNext(Token));
        return watch.ResponseStream.Current;
    }
}
