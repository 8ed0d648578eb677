using ClearView.Contract;
using ClearView.Contract.Tests;
using ClearView.Records.Model;
using ClearView.Server.Services;
using ClearView.V1;

using Grpc.Core;
using Grpc.Health.V1;
using Grpc.Reflection.V1;

using Microsoft.Extensions.DependencyInjection;

namespace ClearView.Server.Tests.Hosting;

public sealed class HostingTests
{
    private static CancellationToken Token => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Health_StoreReachable_IsServing()
    {
        await using var server = await TestServer.StartAsync();

        var response = await new Health.HealthClient(server.Channel).CheckAsync(new HealthCheckRequest(), cancellationToken: Token);

        Assert.Equal(HealthCheckResponse.Types.ServingStatus.Serving, response.Status);
    }

    [Fact]
    public async Task Health_StoreFileGone_IsNotServing()
    {
        await using var server = await TestServer.StartAsync();
        File.Delete(server.Store);

        var response = await new Health.HealthClient(server.Channel).CheckAsync(new HealthCheckRequest(), cancellationToken: Token);

        Assert.Equal(HealthCheckResponse.Types.ServingStatus.NotServing, response.Status);
    }

    [Fact]
    public async Task Reflection_Version1_ListsTheServices()
    {
        await using var server = await TestServer.StartAsync();
        using var call = new ServerReflection.ServerReflectionClient(server.Channel).ServerReflectionInfo(cancellationToken: Token);

        await call.RequestStream.WriteAsync(new ServerReflectionRequest { ListServices = "" }, Token);
        Assert.True(await call.ResponseStream.MoveNext(Token));
        var services = call.ResponseStream.Current.ListServicesResponse.Service.Select(service => service.Name).ToList();
        await call.RequestStream.CompleteAsync();

        Assert.Contains("clearview.v1.EvaluationService", services);
        Assert.Contains("clearview.v1.ReadingService", services);
        Assert.Contains("grpc.health.v1.Health", services);
    }

    [Fact]
    public async Task Stop_PostInFlight_IsFinishedAndStored()
    {
        using var entered = new SemaphoreSlim(0);
        using var proceed = new SemaphoreSlim(0);
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<EvaluateMeasurement>((measurement, method, omitSpectra) =>
        {
            entered.Release();
            proceed.Wait(TimeSpan.FromSeconds(15));
            return MeasurementEvaluator.Evaluate(measurement, method, WireExamples.Clock, omitSpectra);
        }));
        var id = Guid.CreateVersion7();
        var posting = server.Readings.PostReadingAsync(
            new PostReadingRequest { ReadingId = id.ToString(), Measurement = WireExamples.Sphere(), Method = WireExamples.Method() },
            cancellationToken: Token).ResponseAsync;
        Assert.True(await entered.WaitAsync(TimeSpan.FromSeconds(15), Token));

        var stopping = server.StopAsync();
        await Task.Delay(200, Token);
        Assert.False(stopping.IsCompleted);
        proceed.Release();
        var response = await posting;
        await stopping.WaitAsync(TimeSpan.FromSeconds(15), Token);

        Assert.Equal(id.ToString(), response.Reading.ReadingId);
        await using var store = Records.Sqlite.SqliteStore.Open(server.Store, WireExamples.Clock);
        Assert.NotNull(await store.Readings.FindAsync(id, Token));
    }

    [Fact]
    public async Task Calls_AfterStop_AreUnavailable()
    {
        await using var server = await TestServer.StartAsync();
        await server.StopAsync();

        var error = await Assert.ThrowsAsync<RpcException>(
            () => server.Readings.ListReadingsAsync(new ListReadingsRequest(), cancellationToken: Token).ResponseAsync);

        Assert.Equal(StatusCode.Unavailable, error.StatusCode);
    }

    [Fact]
    public async Task List_StoreFails_IsUnavailable()
    {
        await using var server = await TestServer.StartAsync(services => services.AddSingleton<IReadingStore>(new FailingStore()));

        await Rpc.FailsAsync(
            StatusCode.Unavailable, server.Readings.ListReadingsAsync(new ListReadingsRequest(), cancellationToken: Token));
    }
}
