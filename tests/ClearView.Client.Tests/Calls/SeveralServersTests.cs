using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client.Tests.Calls;

/// <summary>One client of several servers.</summary>
public sealed class SeveralServersTests
{
    private static readonly ClearViewClientOptions Hurry = new()
    {
        CallDeadline = TimeSpan.FromSeconds(10),
        InitialBackoff = TimeSpan.FromMilliseconds(5),
        MaxBackoff = TimeSpan.FromMilliseconds(20),
    };

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Post_ToThreeServers_GoesToEachInTurn()
    {
        FakeReadings[] readings = [new(), new(), new()];
        await using var one = await FakeServer.StartAsync(readings: readings[0]);
        await using var two = await FakeServer.StartAsync(readings: readings[1]);
        await using var three = await FakeServer.StartAsync(readings: readings[2]);
        await using var client = Connect(one, two, three);

        await PostAsync(client, 90);

        // Calls before the last server is connected to go to the first ones.
        Assert.All(readings, server => Assert.InRange(server.PostedIds.Count, 15, 60));
        Assert.Equal(90, readings.Sum(server => server.PostedIds.Distinct().Count()));
    }

    [Fact]
    public async Task Post_OneServerGoesAway_OthersAnswerEveryCall()
    {
        FakeReadings[] readings = [new(), new()];
        await using var one = await FakeServer.StartAsync(readings: readings[0]);
        var two = await FakeServer.StartAsync(readings: readings[1]);
        await using var client = Connect(one, two);
        await PostAsync(client, 20);

        await two.DisposeAsync();
        var before = readings[0].PostedIds.Count;
        await PostAsync(client, 20);

        Assert.Equal(before + 20, readings[0].PostedIds.Count);
    }

    [Fact]
    public async Task Post_OneServerIsStopping_NextOneIsAsked()
    {
        FakeReadings[] readings = [new() { CallsToFail = int.MaxValue }, new()];
        await using var one = await FakeServer.StartAsync(readings: readings[0]);
        await using var two = await FakeServer.StartAsync(readings: readings[1]);
        await using var client = Connect(one, two);

        await PostAsync(client, 20);

        Assert.Equal(20, readings[1].PostedIds.Count);
        Assert.NotEmpty(readings[0].PostedIds);
    }

    [Fact]
    public async Task Post_NoServerThere_NamesAll()
    {
        await using var client = ClearViewClient.Connect(ServerAddresses.Parse("127.0.0.1:1,127.0.0.1:2"), Hurry);

        var fault = await Assert.ThrowsAsync<ClearViewCallException>(() => PostAsync(client, 1));

        Assert.Equal(StatusCode.Unavailable, fault.Status);
        Assert.Contains("127.0.0.1:1, 127.0.0.1:2", fault.Message, StringComparison.Ordinal);
    }

    private static ClearViewClient Connect(params FakeServer[] servers) =>
        ClearViewClient.Connect(ServerAddresses.Parse(string.Join(',', servers.Select(server => server.Address.Authority))), Hurry);

    private static async Task PostAsync(ClearViewClient client, int count)
    {
        for (var i = 0; i < count; i++)
        {
            await client.PostAsync(new PostReadingRequest { ReadingId = Guid.CreateVersion7().ToString() }, Token);
        }
    }
}
