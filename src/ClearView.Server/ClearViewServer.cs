using ClearView.Records.Model;
using ClearView.Server.Configuration;
using ClearView.Server.Hosting;
using ClearView.Server.Live;
using ClearView.Server.Security;

using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.AspNetCore.Http.Features;

namespace ClearView.Server;

/// <summary>A server that can be started and stopped within a process.</summary>
/// <remarks>Build, start, stop, dispose: each once. Signals of the process are left to the host of the server.</remarks>
public sealed class ClearViewServer : IAsyncDisposable
{
    private readonly WebApplication _app;
    private readonly ServerOptions _options;
    private readonly ILogger _logger;
    private Uri? _address;

    private ClearViewServer(WebApplication app, ServerOptions options)
    {
        _app = app;
        _options = options;
        _logger = app.Services.GetRequiredService<ILogger<ClearViewServer>>();
    }

    /// <summary>The address that the server listens on, for example http://127.0.0.1:5180/.</summary>
    /// <exception cref="InvalidOperationException">The server has not been started.</exception>
    public Uri Address => _address ?? throw new InvalidOperationException("The server has no address before it is started.");

    /// <summary>Builds a server; nothing is opened yet.</summary>
    /// <param name="options">How it is set up.</param>
    /// <returns>The server.</returns>
    /// <exception cref="ServerOptionsException">Options contradict one another.</exception>
    public static ClearViewServer Build(ServerOptions options) => Build(options, replaceServices: null);

    /// <summary>Builds a server from configuration file, environment and flags; nothing is opened yet.</summary>
    /// <param name="args">Flags, for example "--store", "line3.db".</param>
    /// <returns>The server.</returns>
    /// <exception cref="ServerOptionsException">Something is unknown or invalid.</exception>
    public static ClearViewServer Build(string[] args)
    {
        ArgumentNullException.ThrowIfNull(args);
        return Build(ServerSettings.Read(args));
    }

    /// <summary>Opens the store, settles what a server before left without its signals, and starts to listen.</summary>
    /// <param name="cancellationToken">Stops the start.</param>
    /// <returns>A task that completes when calls are served.</returns>
    /// <exception cref="ServerOptionsException">A file of certificates cannot be used.</exception>
    /// <exception cref="StoreFormatException">The store file is something else, or a newer version wrote it.</exception>
    /// <exception cref="StoreUnavailableException">The store file cannot be opened.</exception>
    /// <exception cref="IOException">The address is in use.</exception>
    public async Task StartAsync(CancellationToken cancellationToken = default)
    {
        _app.Services.GetRequiredService<TlsIdentity>().Load();
        _app.Services.GetRequiredService<IReadingStore>();
        _app.Services.GetRequiredKeyedService<IVersionedStore>(VersionedKind.Method);
        await _app.Services.GetRequiredService<LeftReadings>().SettleAsync(cancellationToken).ConfigureAwait(false);
        await _app.StartAsync(cancellationToken).ConfigureAwait(false);
        var addresses = _app.Services.GetRequiredService<IServer>().Features.GetRequiredFeature<IServerAddressesFeature>();
        _address = new Uri(addresses.Addresses.Single());
        ServerLog.Started(_logger, SoftwareVersion.Text, _address, _options.Store);
    }

    /// <summary>Ends the streams, takes no more calls, and finishes those in flight within the shutdown timeout.</summary>
    /// <param name="cancellationToken">Cuts the calls in flight off.</param>
    /// <returns>A task that completes when the server has stopped.</returns>
    public async Task StopAsync(CancellationToken cancellationToken = default)
    {
        ServerLog.Stopping(_logger, _options.ShutdownTimeout);
        await _app.Services.GetRequiredService<OpenStreams>().EndAsync(_options.ShutdownTimeout, cancellationToken).ConfigureAwait(false);
        await _app.StopAsync(cancellationToken).ConfigureAwait(false);
        ServerLog.Stopped(_logger);
    }

    /// <summary>Closes the store, after committing what is in flight.</summary>
    /// <returns>A task that completes when everything is closed.</returns>
    public ValueTask DisposeAsync() => _app.DisposeAsync();

    /// <summary>Builds a server with some services replaced.</summary>
    internal static ClearViewServer Build(ServerOptions options, Action<IServiceCollection>? replaceServices)
    {
        ArgumentNullException.ThrowIfNull(options);
        return new ClearViewServer(ServerBuilder.Build(options, replaceServices), options);
    }
}
