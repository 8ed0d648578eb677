using System.Net;

using ClearView.Records.Postgres;
using ClearView.Records.Tests.Postgres;
using ClearView.Server.Configuration;
using ClearView.V1;

using Grpc.Core;
using Grpc.Net.Client;

namespace ClearView.Server.Tests.Services;

/// <summary>Two servers on one database.</summary>
public sealed class WatchAcrossServersTests : IDisposable
{
    private readonly PostgresCluster _cluster = new();

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _cluster.Dispose();

    [Fact]
    public async Task Watch_AtOneServer_GivesOnceAndWithSignalsWhatBothStore_AndGoesOnAtTheOther()
    {
        const int count = 40;
        var store = PostgresConnectionString.Describe(_cluster.CreateDatabase());
        await using var first = await StartAsync(store);
        await using var second = await StartAsync(store);
        using var toFirst = GrpcChannel.ForAddress(first.Address);
        using var toSecond = GrpcChannel.ForAddress(second.Address);
        await new ControlChartService.ControlChartServiceClient(toFirst).StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        ReadingService.ReadingServiceClient[] readings = [new(toFirst), new(toSecond)];
        using var watch = readings[0].WatchReadings(new WatchReadingsRequest(), cancellationToken: Token);
        Assert.True(await watch.ResponseStream.MoveNext(Token));
        var start = watch.ResponseStream.Current.Position;

        var posted = await Task.WhenAll(Enumerable.Range(0, count).Select(i =>
            readings[i % 2].PostReadingAsync(ChartExamples.Post(i, i, i % 5 == 0 ? 2.9 : 2), cancellationToken: Token).ResponseAsync));
        var seen = await TakeAsync(watch, count);
        using var elsewhere = readings[1].WatchReadings(new WatchReadingsRequest { Position = start }, cancellationToken: Token);
        var again = await TakeAsync(elsewhere, count);

        Assert.Equal(posted.Select(one => one.Reading.ReadingId).Order(), seen.Select(reading => reading.ReadingId).Order());
        Assert.Equal(seen, again);
        var expected = posted.ToDictionary(one => one.Reading.ReadingId, one => one.Signals);
        Assert.All(seen, reading => Assert.Equal(expected[reading.ReadingId], reading.Signals));
        Assert.Contains(seen, reading => reading.Signals.Count > 0);
        await first.StopAsync(Token);
        await second.StopAsync(Token);
    }

    private static async Task<ClearViewServer> StartAsync(string store)
    {
        var server = ClearViewServer.Build(new ServerOptions
        {
            Listen = new IPEndPoint(IPAddress.Loopback, 0),
            Store = store,
            LogLevel = Microsoft.Extensions.Logging.LogLevel.None,
        });
        await server.StartAsync(Token);
        return server;
    }

    private static async Task<List<Reading>> TakeAsync(AsyncServerStreamingCall<WatchReadingsResponse> watch, int count)
    {
        List<Reading> seen = [];
        while (seen.Count < count && await watch.ResponseStream.MoveNext(Token))
        {
            if (watch.ResponseStream.Current.Reading is { } reading)
            {
                seen.Add(reading);
            }
        }

        return seen;
    }
}
