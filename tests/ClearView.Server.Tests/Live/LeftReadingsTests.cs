using System.Net;

using ClearView.Records.Model;
using ClearView.Records.Postgres;
using ClearView.Records.Tests.Postgres;
using ClearView.Server.Configuration;
using ClearView.Server.Tests.Hosting;
using ClearView.Server.Tests.Services;
using ClearView.V1;

using Grpc.Net.Client;

using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace ClearView.Server.Tests.Live;

/// <summary>Readings whose server ended between them and their signals.</summary>
public sealed class LeftReadingsTests : IDisposable
{
    private const int Count = 40;

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-left-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public Task Start_EmbeddedStore_SettlesWhatWasLeftAsItWasAnswered() => CheckAsync(Path.Combine(_folder.FullName, "readings.db"));

    [Fact]
    public async Task Start_Database_SettlesWhatWasLeftAsItWasAnswered()
    {
        using var cluster = new PostgresCluster();
        await CheckAsync(PostgresConnectionString.Describe(cluster.CreateDatabase()));
    }

    [Fact]
    public async Task Start_ChartCannotBeRead_LeavesThemToALaterStart()
    {
        var store = Path.Combine(_folder.FullName, "readings.db");
        List<PostReadingResponse> answers;
        await using (var first = await StartAsync(store, services => Forget(services, () => true)))
        {
            answers = await PostAsync(first);
        }

        // The list of charts is there, the readings of their series are not.
        await using (var second = await StartAsync(store, services => services.AddSingleton<ISeriesStore>(new FailingSeriesStore())))
        {
            Assert.All(await GetAsync(second), reading => Assert.Empty(reading.Signals));
        }

        await using var third = await StartAsync(store);
        Assert.Equal(answers.Select(answer => answer.Signals), (await GetAsync(third)).Select(reading => reading.Signals));
    }

    [Fact]
    public async Task Start_MoreCameAfterwardsThanAChartKeeps_SettlesEachThatWasLeft()
    {
        const int later = 1100;
        var store = Path.Combine(_folder.FullName, "readings.db");
        var forgets = true;
        List<PostReadingResponse> answers;
        await using (var first = await StartAsync(store, services => Forget(services, () => forgets)))
        {
            answers = await PostAsync(first);
            forgets = false;
            using var channel = GrpcChannel.ForAddress(first.Address);
            var readings = new ReadingService.ReadingServiceClient(channel);
            for (var i = Count; i < Count + later; i++)
            {
                await readings.PostReadingAsync(ChartExamples.Post(i, i, 2), cancellationToken: Token);
            }

            Assert.All(await GetAsync(first), reading => Assert.Empty(reading.Signals));
        }

        await using var second = await StartAsync(store);
        Assert.Equal(answers.Select(answer => answer.Signals), (await GetAsync(second)).Select(reading => reading.Signals));
    }

    private static async Task CheckAsync(string store)
    {
        List<PostReadingResponse> answers;
        await using (var first = await StartAsync(store, services => Forget(services, () => true)))
        {
            answers = await PostAsync(first);
            Assert.All(await GetAsync(first), reading => Assert.Empty(reading.Signals));
        }

        Assert.InRange(answers.Count(answer => answer.Signals.Count > 0), 5, Count - 5);
        using var logs = new RecordingLogs();
        await using (var second = await StartAsync(store, services => services.AddSingleton<ILoggerProvider>(logs), LogLevel.Information))
        {
            Assert.Equal(answers.Select(answer => answer.Signals), (await GetAsync(second)).Select(reading => reading.Signals));
        }

        Assert.Single(logs.Lines, line => line.Message.StartsWith($"{Count} readings that a server left", StringComparison.Ordinal));
        await using var third = await StartAsync(store, services => Forget(services, () => throw new InvalidOperationException("Nothing is left to be settled.")));
        Assert.Equal(answers.Select(answer => answer.Signals), (await GetAsync(third)).Select(reading => reading.Signals));
    }

    private static void Forget(IServiceCollection services, Func<bool> forgets) => services.AddSingleton<IRecordedStore>(
        provider => new ForgetfulStore(provider.GetRequiredService<IStore>().Recorded, forgets));

    private static async Task<ClearViewServer> StartAsync(
        string store, Action<IServiceCollection>? replaceServices = null, LogLevel logLevel = LogLevel.None)
    {
        var server = ClearViewServer.Build(
            new ServerOptions { Listen = new IPEndPoint(IPAddress.Loopback, 0), Store = store, LogLevel = logLevel }, replaceServices);
        await server.StartAsync(Token);
        return server;
    }

    private static async Task<List<PostReadingResponse>> PostAsync(ClearViewServer server)
    {
        using var channel = GrpcChannel.ForAddress(server.Address);
        await new ControlChartService.ControlChartServiceClient(channel).StoreControlChartAsync(ChartExamples.Store(), cancellationToken: Token);
        var haze = ChartExamples.Haze(seed: 3, Count);
        List<PostReadingResponse> answers = [];
        for (var i = 0; i < Count; i++)
        {
            answers.Add(await new ReadingService.ReadingServiceClient(channel).PostReadingAsync(ChartExamples.Post(i, i, haze[i]), cancellationToken: Token));
        }

        return answers;
    }

    private static async Task<List<Reading>> GetAsync(ClearViewServer server)
    {
        using var channel = GrpcChannel.ForAddress(server.Address);
        List<Reading> readings = [];
        for (var i = 0; i < Count; i++)
        {
            var request = new GetReadingRequest { ReadingId = ChartExamples.Post(i, i, 2).ReadingId };
            readings.Add((await new ReadingService.ReadingServiceClient(channel).GetReadingAsync(request, cancellationToken: Token)).Reading);
        }

        return readings;
    }
}
