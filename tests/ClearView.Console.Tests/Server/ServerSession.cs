using System.Net;

using ClearView.Server;
using ClearView.Server.Configuration;

using Microsoft.Extensions.Logging;

namespace ClearView.Console.Tests.Server;

/// <summary>The real server on a free loopback port, with a store of its own that is removed afterwards.</summary>
internal sealed class ServerSession : IAsyncDisposable
{
    private readonly DirectoryInfo _folder;
    private readonly ClearViewServer _server;

    private ServerSession(DirectoryInfo folder, ClearViewServer server)
    {
        _folder = folder;
        _server = server;
    }

    /// <summary>The store of the server.</summary>
    public string Store => Path.Combine(_folder.FullName, "readings.db");

    /// <summary>Starts a server.</summary>
    /// <param name="configure">What is set up otherwise.</param>
    public static async Task<ServerSession> StartAsync(Func<ServerOptions, ServerOptions>? configure = null)
    {
        var folder = Directory.CreateTempSubdirectory("clearview-console-tests-");
        var options = new ServerOptions
        {
            Listen = new IPEndPoint(IPAddress.Loopback, 0),
            Store = Path.Combine(folder.FullName, "readings.db"),
            LogLevel = LogLevel.None,
        };
        var server = ClearViewServer.Build(configure?.Invoke(options) ?? options);
        await server.StartAsync(TestContext.Current.CancellationToken);
        return new ServerSession(folder, server);
    }

    /// <summary>Runs a command line against this server; what differs from run to run is replaced.</summary>
    public async Task<ConsoleRun> RunAsync(string arguments)
    {
        var run = await ConsoleRun.RunAsync($"{arguments} --server {Address}");
        return run with
        {
            Arguments = arguments,
            Output = System.Text.RegularExpressions.Regex.Replace(run.Output, "(?m)^((?:Stored(?: at)?|Posted) {2,}).*$", "$1(when and by whom)"),
        };
    }

    /// <summary>The server's address, as people write it.</summary>
    public string Address => (_server.Address.Scheme == Uri.UriSchemeHttps ? "https://" : "") + _server.Address.Authority;

    public async ValueTask DisposeAsync()
    {
        await _server.StopAsync(CancellationToken.None);
        await _server.DisposeAsync();
        _folder.Delete(recursive: true);
    }
}
