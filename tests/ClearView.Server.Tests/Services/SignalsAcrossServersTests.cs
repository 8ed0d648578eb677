using System.Net;

using ClearView.Records.Postgres;
using ClearView.Records.Tests.Postgres;
using ClearView.Server.Configuration;
using ClearView.Server.Tests.Live;
using ClearView.V1;

using Grpc.Net.Client;

using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;

namespace ClearView.Server.Tests.Services;

/// <summary>Signals where two servers share a database. Limits are 1.7 % and 2.3 %, of the moving range 0.3686 %.</summary>
public sealed class SignalsAcrossServersTests : IAsyncDisposable
{
    private readonly PostgresCluster _cluster = new();
    private readonly ManualClock _clock = new();
    private readonly List<ClearViewServer> _servers = [];
    private readonly List<GrpcChannel> _channels = [];
    private readonly string _folder = Directory.CreateTempSubdirectory("clearview-test-").FullName;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public async ValueTask DisposeAsync()
    {
        _channels.ForEach(channel => channel.Dispose());
        foreach (var server in _servers)
        {
            await server.StopAsync(Token);
            await server.DisposeAsync();
        }

        _cluster.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    // The measure is one server with a store of its own that takes the same posts.
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task Post_ThroughEitherServer_RaisesWhatOneServerAloneWouldSay(int seed)
    {
        const int count = 120;
        var store = PostgresConnectionString.Describe(_cluster.CreateDatabase());
        GrpcChannel[] both = [await StartAsync(store), await StartAsync(store)];
        var alone = await StartAsync(Path.Combine(_folder, "alone.db"));
        await ChartsOf(both[0]).StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        await ChartsOf(alone).StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);

        var random = new Random(seed);
        var raised = 0;
        for (var i = 0; i < count; i++)
        {
            // Every seventh comes an hour late and falls among readings of both.
            var post = ChartExamples.Post(i, i % 7 == 6 ? i - 60 : i, 2 + (0.5 * (random.NextDouble() - 0.5)));
            var expected = await ReadingsOf(alone).PostReadingAsync(post, cancellationToken: Token);
            var answer = await ReadingsOf(both[random.Next(2)]).PostReadingAsync(post, cancellationToken: Token);
            Assert.Equal(expected.Signals, answer.Signals);
            raised += answer.Signals.Count;
        }

        Assert.InRange(raised, 10, count);
    }

    // Whichever is held against the charts last sees the other: a jump between the two is told at least once.
    [Fact]
    public async Task Post_AtBothServersAtOnce_WhatOnlyBothTogetherRaiseIsTold()
    {
        var store = PostgresConnectionString.Describe(_cluster.CreateDatabase());
        GrpcChannel[] both = [await StartAsync(store), await StartAsync(store)];
        await ChartsOf(both[0]).StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        await PostAsync(both[0], 0, 2);
        await PostAsync(both[1], 1, 2);
        for (var i = 2; i < 80; i += 4)
        {
            var answers = await Task.WhenAll(PostAsync(both[0], i, 2.2), PostAsync(both[1], i + 1, 1.8));
            Assert.Contains(answers.SelectMany(answer => answer.Signals), signal => signal.Pattern == ControlPattern.SpreadBeyondLimits);
            await PostAsync(both[0], i + 2, 1.9);
            await PostAsync(both[1], i + 3, 2);
        }
    }

    [Fact]
    public async Task StoreControlChart_AtAnotherServer_IsTakenUpAfterTwoSeconds()
    {
        var store = PostgresConnectionString.Describe(_cluster.CreateDatabase());
        GrpcChannel[] both = [await StartAsync(store), await StartAsync(store)];
        Assert.Empty((await PostAsync(both[0], 0, 2.9)).Signals);
        await ChartsOf(both[1]).StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        Assert.Empty((await PostAsync(both[0], 1, 2.9)).Signals);

        _clock.Advance(TimeSpan.FromSeconds(2));

        Assert.Contains((await PostAsync(both[0], 2, 2.9)).Signals, signal => signal.Pattern == ControlPattern.BeyondLimits);
    }

    private static ControlChartService.ControlChartServiceClient ChartsOf(GrpcChannel channel) => new(channel);

    private static ReadingService.ReadingServiceClient ReadingsOf(GrpcChannel channel) => new(channel);

    private static Task<PostReadingResponse> PostAsync(GrpcChannel channel, int number, double haze) =>
        ReadingsOf(channel).PostReadingAsync(ChartExamples.Post(number, number, haze), cancellationToken: Token).ResponseAsync;

    private async Task<GrpcChannel> StartAsync(string store)
    {
        var server = ClearViewServer.Build(
            new ServerOptions
            {
                Listen = new IPEndPoint(IPAddress.Loopback, 0),
                Store = store,
                LogLevel = Microsoft.Extensions.Logging.LogLevel.None,
            },
            services => services.Replace(ServiceDescriptor.Singleton<TimeProvider>(_clock)));
        _servers.Add(server);
        await server.StartAsync(Token);
        var channel = GrpcChannel.ForAddress(server.Address);
        _channels.Add(channel);
        return channel;
    }
}
