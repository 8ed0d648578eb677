using System.Net;

using ClearView.Client;
using ClearView.Server;
using ClearView.Server.Configuration;

using Grpc.Net.Client;

using Microsoft.Extensions.Logging;

namespace ClearView.Benchmarks.Measuring;

/// <summary>The server on a loopback socket, in this process.</summary>
internal sealed class LoopbackServer : IAsyncDisposable
{
    private readonly ClearViewServer _server;

    private LoopbackServer(ClearViewServer server)
    {
        _server = server;
        Client = ClearViewClient.Connect(server.Address);
        Channel = GrpcChannel.ForAddress(server.Address, new GrpcChannelOptions { MaxReceiveMessageSize = null });
    }

    /// <summary>The client that its users have.</summary>
    public ClearViewClient Client { get; }

    /// <summary>A connection for clients that the contract gives, without anything around them.</summary>
    public GrpcChannel Channel { get; }

    /// <summary>Starts a server.</summary>
    /// <param name="store">A file or a database, as in <see cref="ServerOptions.Store"/>.</param>
    public static async Task<LoopbackServer> StartAsync(string store)
    {
        var server = ClearViewServer.Build(new ServerOptions { Listen = new IPEndPoint(IPAddress.Loopback, 0), Store = store, LogLevel = LogLevel.Warning });
        await server.StartAsync();
        return new LoopbackServer(server);
    }

    public async ValueTask DisposeAsync()
    {
        Channel.Dispose();
        await Client.DisposeAsync();
        await _server.StopAsync();
        await _server.DisposeAsync();
    }
}
