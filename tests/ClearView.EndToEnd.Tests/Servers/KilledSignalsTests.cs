using ClearView.Contract.Tests;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Grpc.Core;
using Grpc.Net.Client;

using Microsoft.Data.Sqlite;

namespace ClearView.EndToEnd.Tests.Servers;

/// <summary>Whatever happens to the server between a reading and its signals, the reading has them once a server runs again.</summary>
public sealed class KilledSignalsTests : IDisposable
{
    private const int Rounds = 5;
    private const int AnswersPerRound = 30;
    private const double Total = 0.9;

    private static readonly DateTimeOffset Start = new(2026, 3, 2, 6, 0, 0, TimeSpan.Zero);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-signals-");
    private int _posted;

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    private string Store => Path.Combine(_folder.FullName, "readings.db");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Kill_BetweenReadingsAndTheirSignals_TheNextStartSettlesThem()
    {
        var left = 0L;
        for (var round = 0; round < Rounds; round++)
        {
            using var server = await ServerProcess.StartAsync(Store, Token);
            using var channel = server.Connect();
            await StoreChartAsync(channel);
            await CheckAsync(channel);
            await PostUntilKilledAsync(server, channel);
            left += CountLeft();
        }

        using var last = await ServerProcess.StartAsync(Store, Token);
        using (var channel = last.Connect())
        {
            await CheckAsync(channel);
        }

        Assert.Equal(0, (await last.TerminateAsync()).ExitCode);
        Assert.Equal(0, CountLeft());
        Assert.True(left > 0, "no kill came between a reading and its signals");
    }

    // Limits are 1.7 % and 2.3 %: each reading of 2.9 % lies beyond them.
    private static async Task StoreChartAsync(GrpcChannel channel) =>
        await new ControlChartService.ControlChartServiceClient(channel).StoreControlChartAsync(
            new StoreControlChartRequest
            {
                Name = "line-3-haze",
                Description = "haze of line 3",
                StoredBy = "M. Arden",
                ControlChart = new ControlChart
                {
                    Series = new SeriesFilter { Measurand = "haze", Line = "line 3" },
                    Kind = ControlChartKind.Individuals,
                    Phases = { new ControlPhase { Name = "start", Limits = new FrozenLimits { Centre = 2, StandardDeviation = 0.1 } } },
                },
            },
            cancellationToken: Token);

    private static async Task CheckAsync(GrpcChannel channel)
    {
        var request = new ListReadingsRequest { PageSize = 1000, OmitSpectra = true };
        do
        {
            var page = await new ReadingService.ReadingServiceClient(channel).ListReadingsAsync(request, cancellationToken: Token);
            Assert.All(page.Readings, reading => Assert.Contains(reading.Signals, signal => signal.Pattern == ControlPattern.BeyondLimits));
            request.PageToken = page.NextPageToken;
        }
        while (request.PageToken.Length > 0);
    }

    private async Task PostUntilKilledAsync(ServerProcess server, GrpcChannel channel)
    {
        using var call = new ReadingService.ReadingServiceClient(channel).PostReadings(cancellationToken: Token);
        var sending = SendAsync(call.RequestStream);
        for (var answered = 0; answered < AnswersPerRound; answered++)
        {
            Assert.True(await call.ResponseStream.MoveNext(Token));
            Assert.NotNull(call.ResponseStream.Current.Acknowledgement);
        }

        await server.KillAsync();
        await sending;
    }

    private async Task SendAsync(IClientStreamWriter<PostReadingsRequest> posts)
    {
        try
        {
            while (true)
            {
                await posts.WriteAsync(Next(), Token);
            }
        }
        catch (Exception error) when (error is RpcException or InvalidOperationException or IOException)
        {
            // The server is gone.
        }
    }

    private PostReadingsRequest Next()
    {
        const double haze = 2.9;
        var measurement = WireExamples.Normalised(Total, haze * Total / 100);
        measurement.MeasuredAt = Start.AddSeconds(_posted++).ToTimestamp();
        measurement.Identification.Line = "line 3";
        return new PostReadingsRequest
        {
            Post = new PostReadingRequest
            {
                ReadingId = Guid.CreateVersion7().ToString(),
                Measurement = measurement,
                MethodName = new MethodName { Name = "astm" },
            },
        };
    }

    private long CountLeft()
    {
        using var connection = new SqliteConnection($"Data Source={Store};Pooling=False");
        connection.Open();
        using var command = new SqliteCommand(
            "SELECT count(*) FROM awaited_signal WHERE sequence NOT IN (SELECT sequence FROM reading_signal)", connection);
        return (long)command.ExecuteScalar()!;
    }
}
