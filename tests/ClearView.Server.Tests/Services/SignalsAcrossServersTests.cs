using System.Net;

using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Tests.Postgres;
using ClearView.Server.Configuration;
using ClearView.Server.Tests.Live;
using ClearView.V1;

using Grpc.Net.Client;

using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.DependencyInjection.Extensions;

using Npgsql;

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

    // A transaction that hangs keeps everything behind it listed again and again; the correction has the charts read anew once.
    [Fact]
    public async Task Post_CorrectionsBehindAFloorThatHangs_ReadsTheChartAnewOncePerCorrection()
    {
        var connectionString = _cluster.CreateDatabase();
        var store = PostgresConnectionString.Describe(connectionString);
        CountingSeriesStore? counting = null;
        GrpcChannel[] both =
        [
            await StartAsync(store, services => services.Replace(ServiceDescriptor.Singleton<ISeriesStore>(
                provider => counting = new CountingSeriesStore(provider.GetRequiredService<IStore>().Series)))),
            await StartAsync(store),
        ];
        await ChartsOf(both[0]).StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        await PostAsync(both[1], 0, 2);
        await PostAsync(both[0], 1, 2);
        await using var hanging = await HangAsync(connectionString);
        await PostAsync(both[0], 2, 2);
        var before = counting!.Reads;

        await CorrectAsync(both[1], 3, corrects: 0, haze: 2.1);
        await PostAsync(both[1], 4, 2);
        for (var i = 5; i < 10; i++)
        {
            await PostAsync(both[0], i, 2);
        }

        Assert.Equal(before + 1, counting.Reads);
        await CorrectAsync(both[1], 10, corrects: 4, haze: 1.9);
        for (var i = 11; i < 16; i++)
        {
            await PostAsync(both[0], i, 2);
        }

        Assert.Equal(before + 2, counting.Reads);

        // The chart holds what took the places: 2.26 is 0.36 from 1.9, and 0.26 from the 2 that was corrected.
        await hanging.CloseAsync();
        Assert.Equal(
            [ControlPattern.SpreadBeyondLimits],
            (await ReadingsOf(both[0]).PostReadingAsync(ChartExamples.Post(16, 4, 2.28), cancellationToken: Token)).Signals.Select(signal => signal.Pattern));
        Assert.Equal(before + 2, counting.Reads);
    }

    private static ControlChartService.ControlChartServiceClient ChartsOf(GrpcChannel channel) => new(channel);

    private static ReadingService.ReadingServiceClient ReadingsOf(GrpcChannel channel) => new(channel);

    private static Task<PostReadingResponse> PostAsync(GrpcChannel channel, int number, double haze) =>
        ReadingsOf(channel).PostReadingAsync(ChartExamples.Post(number, number, haze), cancellationToken: Token).ResponseAsync;

    private static Task<PostReadingResponse> CorrectAsync(GrpcChannel channel, int number, int corrects, double haze)
    {
        var post = ChartExamples.Post(number, corrects, haze);
        post.Corrects = new Correction { ReadingId = ChartExamples.Post(corrects, corrects, haze).ReadingId, Reason = "wrong roll typed", Person = "E. Marsh" };
        return ReadingsOf(channel).PostReadingAsync(post, cancellationToken: Token).ResponseAsync;
    }

    // A transaction that took its place in the order of recording and does not end, as others see it: by its lock.
    private static async Task<NpgsqlConnection> HangAsync(string connectionString)
    {
        var hanging = new NpgsqlConnection(connectionString + ";Search Path=clearview;Pooling=false");
        await hanging.OpenAsync(Token);
        await using var hang = new NpgsqlCommand("SELECT pg_advisory_lock_shared(-1 - 2 * last_value) FROM reading_sequence", hanging);
        await hang.ExecuteNonQueryAsync(Token);
        return hanging;
    }

    private async Task<GrpcChannel> StartAsync(string store, Action<IServiceCollection>? replaceServices = null)
    {
        var server = ClearViewServer.Build(
            new ServerOptions
            {
                Listen = new IPEndPoint(IPAddress.Loopback, 0),
                Store = store,
                LogLevel = Microsoft.Extensions.Logging.LogLevel.None,
            },
            services =>
            {
                services.Replace(ServiceDescriptor.Singleton<TimeProvider>(_clock));
                replaceServices?.Invoke(services);
            });
        _servers.Add(server);
        await server.StartAsync(Token);
        var channel = GrpcChannel.ForAddress(server.Address);
        _channels.Add(channel);
        return channel;
    }
}
