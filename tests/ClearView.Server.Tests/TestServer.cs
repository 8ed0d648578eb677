using System.Net;

using ClearView.Contract.Tests;
using ClearView.Server.Configuration;
using ClearView.V1;

using Grpc.Net.Client;

using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;

namespace ClearView.Server.Tests;

/// <summary>A real server on a loopback socket and a store of its own, with a channel to it.</summary>
internal sealed class TestServer : IAsyncDisposable
{
    private readonly DirectoryInfo _folder;
    private readonly ClearViewServer _server;

    private TestServer(DirectoryInfo folder, ClearViewServer server, GrpcChannel channel)
    {
        _folder = folder;
        _server = server;
        Channel = channel;
    }

    public GrpcChannel Channel { get; }

    public Uri Address => _server.Address;

    public EvaluationService.EvaluationServiceClient Evaluations => new(Channel);

    public ReadingService.ReadingServiceClient Readings => new(Channel);

    public string Store => Path.Combine(_folder.FullName, "readings.db");

    public static async Task<TestServer> StartAsync(
        Action<IServiceCollection>? replaceServices = null, LogLevel logLevel = LogLevel.None)
    {
        var folder = Directory.CreateTempSubdirectory("clearview-server-");
        var options = new ServerOptions
        {
            Listen = new IPEndPoint(IPAddress.Loopback, 0),
            Store = Path.Combine(folder.FullName, "readings.db"),
            ShutdownTimeout = TimeSpan.FromSeconds(20),
            LogLevel = logLevel,
        };
        var server = ClearViewServer.Build(options, services =>
        {
            services.AddSingleton(WireExamples.Clock);
            replaceServices?.Invoke(services);
        });
        await server.StartAsync(TestContext.Current.CancellationToken);
        var channel = GrpcChannel.ForAddress(server.Address, new GrpcChannelOptions { MaxReceiveMessageSize = 4 * 1024 * 1024 });
        return new TestServer(folder, server, channel);
    }

    public Task StopAsync() => _server.StopAsync(CancellationToken.None);

    public async ValueTask DisposeAsync()
    {
        Channel.Dispose();
        await _server.DisposeAsync();
        _folder.Delete(recursive: true);
    }
}
