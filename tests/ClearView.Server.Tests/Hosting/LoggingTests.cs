using ClearView.Contract.Tests;
using ClearView.Server.Services;
using ClearView.V1;

using Grpc.Core;

using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace ClearView.Server.Tests.Hosting;

public sealed class LoggingTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Log_FaultsOfCallers_AreInformationOfOursAlone()
    {
        using var logs = new RecordingLogs();
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<ILoggerProvider>(logs), LogLevel.Information);
        var tooLarge = WireExamples.Normalised();
        tooLarge.Scans.Normalised.TotalTransmittance.Add(Enumerable.Repeat(0.5, 600_000));

        await Rpc.FailsAsync(StatusCode.InvalidArgument, server.Evaluations.EvaluateAsync(new EvaluateRequest(), cancellationToken: Token));
        await Rpc.FailsAsync(StatusCode.InvalidArgument, server.Readings.PostReadingAsync(new PostReadingRequest(), cancellationToken: Token));
        await Rpc.FailsAsync(
            StatusCode.NotFound,
            server.Readings.GetReadingAsync(new GetReadingRequest { ReadingId = Guid.CreateVersion7().ToString() }, cancellationToken: Token));
        await Rpc.FailsAsync(
            StatusCode.ResourceExhausted,
            server.Evaluations.EvaluateAsync(new EvaluateRequest { Measurement = tooLarge }, cancellationToken: Token));
        await CancelStreamAsync(server);
        await server.StopAsync();

        Assert.NotEmpty(logs.Lines);
        Assert.All(logs.Lines, line =>
        {
            Assert.StartsWith("ClearView.", line.Category, StringComparison.Ordinal);
            Assert.Equal(LogLevel.Information, line.Level);
            Assert.Null(line.Error);
        });
    }

    [Fact]
    public async Task Log_UnexpectedFailure_IsAnErrorWithDetailUnderTheReferenceThatTheCallerSees()
    {
        using var logs = new RecordingLogs();
        await using var server = await TestServer.StartAsync(
            services => services
                .AddSingleton<ILoggerProvider>(logs)
                .AddSingleton<EvaluateMeasurement>((_, _, _) => throw new InvalidOperationException("the secret of the server")),
            LogLevel.Information);

        var error = await Rpc.FailsAsync(
            StatusCode.Internal, server.Evaluations.EvaluateAsync(new EvaluateRequest(), cancellationToken: Token));

        var line = Assert.Single(logs.Lines, line => line.Level == LogLevel.Error);
        Assert.Equal("the secret of the server", line.Error?.Message);
        var reference = line.Message[(line.Message.LastIndexOf(' ') + 1)..];
        Assert.Equal(12, reference.Length);
        Assert.Contains(reference, error.Status.Detail, StringComparison.Ordinal);
    }

    private static async Task CancelStreamAsync(TestServer server)
    {
        using var cancel = new CancellationTokenSource();
        using var call = server.Evaluations.EvaluateMany(cancellationToken: cancel.Token);
        await call.RequestStream.WriteAsync(new EvaluateManyRequest(), Token);
        Assert.True(await call.ResponseStream.MoveNext(Token));
        await cancel.CancelAsync();
        await Assert.ThrowsAsync<RpcException>(() => call.ResponseStream.MoveNext(Token));
    }
}
