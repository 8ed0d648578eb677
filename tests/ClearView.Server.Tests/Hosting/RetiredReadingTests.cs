using System.Net;

using ClearView.Contract.Tests;
using ClearView.Records.Postgres;
using ClearView.Records.Retention;
using ClearView.Records.Tests.Postgres;
using ClearView.Server.Configuration;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;

using Grpc.Core;
using Grpc.Net.Client;

namespace ClearView.Server.Tests.Hosting;

/// <summary>What a server answers about readings whose month was retired while it runs.</summary>
public sealed class RetiredReadingTests : IDisposable
{
    private static readonly DateTimeOffset January = new(2026, 1, 15, 8, 0, 0, TimeSpan.Zero);

    private readonly PostgresCluster _cluster = new();
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("clearview-retired-");

    private static CancellationToken Token => TestContext.Current.CancellationToken;

    public void Dispose()
    {
        _cluster.Dispose();
        _folder.Delete(recursive: true);
    }

    [Fact]
    public async Task RetiredReading_IsToldApartFromOneThatNeverWas()
    {
        var connection = _cluster.CreateDatabase();
        await using var server = ClearViewServer.Build(new ServerOptions
        {
            Listen = new IPEndPoint(IPAddress.Loopback, 0),
            Store = PostgresConnectionString.Describe(connection),
            LogLevel = Microsoft.Extensions.Logging.LogLevel.None,
        });
        await server.StartAsync(Token);
        using var channel = GrpcChannel.ForAddress(server.Address);
        var readings = new ReadingService.ReadingServiceClient(channel);
        var (retired, kept) = (Post(1, January), Post(2, January.AddMonths(1)));
        await readings.PostReadingAsync(retired, cancellationToken: Token);
        await readings.PostReadingAsync(kept, cancellationToken: Token);
        await RetireAsync(connection);

        var get = await Rpc.FailsAsync(StatusCode.NotFound, readings.GetReadingAsync(new GetReadingRequest { ReadingId = retired.ReadingId }, cancellationToken: Token));
        var picture = await Rpc.FailsAsync(StatusCode.NotFound, readings.GetPictureAsync(new GetPictureRequest { ReadingId = retired.ReadingId }, cancellationToken: Token));
        var never = await Rpc.FailsAsync(StatusCode.NotFound, readings.GetReadingAsync(new GetReadingRequest { ReadingId = Post(9, January).ReadingId }, cancellationToken: Token));
        var again = await Rpc.FailsAsync(StatusCode.AlreadyExists, readings.PostReadingAsync(retired, cancellationToken: Token));
        var correction = Post(3, January.AddMonths(1));
        correction.Corrects = new Correction { ReadingId = retired.ReadingId, Reason = "wrong roll typed", Person = "E. Marsh" };
        correction.Origin = new Origin { Person = "E. Marsh" };
        var corrects = await Rpc.FailsAsync(StatusCode.FailedPrecondition, readings.PostReadingAsync(correction, cancellationToken: Token));
        var list = await readings.ListReadingsAsync(new ListReadingsRequest(), cancellationToken: Token);

        Assert.All(new[] { get, picture, again, corrects }, error => Assert.Contains("readings-2026-01.db", error.Status.Detail, StringComparison.Ordinal));
        Assert.DoesNotContain("readings-2026-01.db", never.Status.Detail, StringComparison.Ordinal);
        Assert.Equal([kept.ReadingId], list.Readings.Select(reading => reading.ReadingId));
        Assert.Equal((1L, 1L), await VerifyAsync(channel));
        await server.StopAsync(Token);
    }

    private static PostReadingRequest Post(int number, DateTimeOffset measuredAt)
    {
        var measurement = WireExamples.Sphere();
        measurement.MeasuredAt = measuredAt.ToTimestamp();
        return new PostReadingRequest { ReadingId = new Guid(number, 0, 0, new byte[8]).ToString("D"), Measurement = measurement, Method = WireExamples.Method() };
    }

    private static async Task<(long Readings, long Retired)> VerifyAsync(GrpcChannel channel)
    {
        using var call = new AuditService.AuditServiceClient(channel).VerifyChain(new VerifyChainRequest(), cancellationToken: Token);
        var summary = (await call.ResponseStream.ReadAllAsync(Token).LastAsync(Token)).Summary;
        Assert.Null(summary.FirstBreak);
        return (summary.ReadingCount, summary.RetiredReadingCount);
    }

    private async Task RetireAsync(string connection)
    {
        await using var store = await PostgresStore.OpenAsync(connection, TimeProvider.System, Token);
        await foreach (var month in MonthRetirement.RunAsync(store, new MonthSpan(2026, 2), _folder.FullName, "E. Marsh", TimeProvider.System, Token))
        {
            Assert.Equal("2026-01", month.Month);
        }
    }
}
