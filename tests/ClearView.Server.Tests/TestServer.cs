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
    private readonly LogLevel _logLevel;
    private readonly Action<IServiceCollection>? _replaceServices;
    private readonly Func<ServerOptions, ServerOptions> _configure;
    private readonly Func<HttpMessageHandler>? _handler;
    private ClearViewServer _server = null!;

    private TestServer(
        DirectoryInfo folder,
        Action<IServiceCollection>? replaceServices,
        LogLevel logLevel,
        Func<ServerOptions, ServerOptions>? configure,
        Func<HttpMessageHandler>? handler)
    {
        _configure = configure ?? (options => options);
        _handler = handler;
        _folder = folder;
        _replaceServices = replaceServices;
        _logLevel = logLevel;
    }

    public GrpcChannel Channel { get; private set; } = null!;

    public Uri Address => _server.Address;

    public EvaluationService.EvaluationServiceClient Evaluations => new(Channel);

    public ReadingService.ReadingServiceClient Readings => new(Channel);

    public CatalogueService.CatalogueServiceClient Catalogue => new(Channel);

    public SpecificationService.SpecificationServiceClient Specifications => new(Channel);

    public JudgementService.JudgementServiceClient Judgements => new(Channel);

    public StudyService.StudyServiceClient Studies => new(Channel);

    public ControlChartService.ControlChartServiceClient ControlCharts => new(Channel);

    public AuditService.AuditServiceClient Audit => new(Channel);

    public string Store => Path.Combine(_folder.FullName, "readings.db");

    public static async Task<TestServer> StartAsync(
        Action<IServiceCollection>? replaceServices = null,
        LogLevel logLevel = LogLevel.None,
        Func<ServerOptions, ServerOptions>? configure = null,
        Func<HttpMessageHandler>? handler = null)
    {
        var server = new TestServer(Directory.CreateTempSubdirectory("clearview-server-"), replaceServices, logLevel, configure, handler);
        await server.OpenAsync();
        return server;
    }

    public Task StopAsync() => _server.StopAsync(CancellationToken.None);

    /// <summary>Stops the server in order and starts another one on the same store.</summary>
    public async Task RestartAsync()
    {
        await StopAsync();
        await CloseAsync();
        await OpenAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await CloseAsync();
        _folder.Delete(recursive: true);
    }

    private async Task OpenAsync()
    {
        var options = new ServerOptions
        {
            Listen = new IPEndPoint(IPAddress.Loopback, 0),
            Store = Store,
            ShutdownTimeout = TimeSpan.FromSeconds(20),
            LogLevel = _logLevel,
        };
        _server = ClearViewServer.Build(_configure(options), services =>
        {
            services.AddSingleton(WireExamples.Clock);
            _replaceServices?.Invoke(services);
        });
        await _server.StartAsync(TestContext.Current.CancellationToken);
        Channel = NewChannel(_handler?.Invoke());
    }

    /// <summary>Another channel to the server; its handler is disposed with it.</summary>
    public GrpcChannel NewChannel(HttpMessageHandler? handler) => GrpcChannel.ForAddress(
        _server.Address,
        new GrpcChannelOptions { MaxReceiveMessageSize = 4 * 1024 * 1024, HttpHandler = handler, DisposeHttpClient = handler is not null });

    private async Task CloseAsync()
    {
        Channel.Dispose();
        await _server.DisposeAsync();
    }
}
