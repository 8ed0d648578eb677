using System.Net;
using System.Net.Sockets;

namespace ClearView.EndToEnd.Tests.Faults;

/// <summary>Stands between a client and a server, and can fall silent on the connections that are open, without closing them.</summary>
internal sealed class Relay : IAsyncDisposable
{
    private readonly TcpListener _listener = new(IPAddress.Loopback, 0);
    private readonly Uri _server;
    private readonly CancellationTokenSource _stop = new();
    private readonly Task _accepting;
    private CancellationTokenSource _open = new();

    public Relay(Uri server)
    {
        _server = server;
        _listener.Start();
        _accepting = AcceptAsync();
    }

    public Uri Address => new($"http://{_listener.LocalEndpoint}");

    /// <summary>How many connections were made so far.</summary>
    public int ConnectionCount { get; private set; }

    /// <summary>Lets every open connection go silent, as when a cable is pulled; later ones work.</summary>
    public async Task FallSilentAsync()
    {
        var open = Interlocked.Exchange(ref _open, new CancellationTokenSource());
        await open.CancelAsync();
    }

    public async ValueTask DisposeAsync()
    {
        await _stop.CancelAsync();
        _listener.Stop();
        await _accepting.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        _open.Dispose();
        _stop.Dispose();
    }

    private async Task AcceptAsync()
    {
        List<Task> connections = [];
        while (!_stop.IsCancellationRequested)
        {
            var client = await _listener.AcceptTcpClientAsync(_stop.Token);
            ConnectionCount++;
            connections.Add(ConnectAsync(client, _open.Token));
        }
    }

    private async Task ConnectAsync(TcpClient client, CancellationToken silence)
    {
        using var near = client;
        using var far = new TcpClient();
        await far.ConnectAsync(_server.Host, _server.Port, _stop.Token);
        await Task.WhenAny(PassAsync(near.GetStream(), far.GetStream(), silence), PassAsync(far.GetStream(), near.GetStream(), silence));
    }

    private async Task PassAsync(NetworkStream from, NetworkStream to, CancellationToken silence)
    {
        var buffer = new byte[64 * 1024];
        try
        {
            while (await from.ReadAsync(buffer, silence) is > 0 and var count)
            {
                await to.WriteAsync(buffer.AsMemory(0, count), silence);
            }
        }
        catch (OperationCanceledException)
        {
            // Silent, but open.
            await Task.Delay(Timeout.Infinite, _stop.Token).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
        }
        catch (IOException)
        {
            // One of the two closed it.
        }
    }
}
