using System.Net;

using Grpc.Core;
using Grpc.Net.Client;
using Grpc.Net.Client.Balancer;
using Grpc.Net.Client.Configuration;

namespace ClearView.Client.Calls;

/// <summary>Opens the channel of a client.</summary>
internal static class ServerChannel
{
    // A page of long scans is larger than the 4 MB that gRPC takes by itself; the server is one that the caller chose.
    private const int LargestAnswerBytes = 256 * 1024 * 1024;

    private static readonly TimeSpan ConnectTimeout = TimeSpan.FromSeconds(5);

    // A peer that went away without a word shows by a ping that nobody answers, also on a stream where nothing is due.
    private static readonly TimeSpan PingDelay = TimeSpan.FromSeconds(15);
    private static readonly TimeSpan PingTimeout = TimeSpan.FromSeconds(5);

    // A server that comes back is called again this soon.
    private static readonly TimeSpan LongestReconnectPause = TimeSpan.FromSeconds(2);

    /// <summary>Opens a channel; nothing is sent before the first call.</summary>
    /// <param name="servers">One server, or several that calls go to in turn; one that cannot be reached is passed over.</param>
    /// <param name="options">Patience and credentials.</param>
    /// <exception cref="ClearViewCredentialsException">A file cannot be used, or the key would travel in the clear.</exception>
    public static GrpcChannel Open(ServerAddresses servers, ClearViewClientOptions options)
    {
        var first = servers.All[0];
        var settings = new GrpcChannelOptions
        {
            HttpHandler = new SocketsHttpHandler
            {
                ConnectTimeout = ConnectTimeout,
                EnableMultipleHttp2Connections = true,
                AutomaticDecompression = DecompressionMethods.None,
                KeepAlivePingDelay = PingDelay,
                KeepAlivePingTimeout = PingTimeout,
                KeepAlivePingPolicy = HttpKeepAlivePingPolicy.WithActiveRequests,
                SslOptions = ChannelSecurity.ToTls(options.Credentials),
                UseProxy = servers.All.Length == 1 && !first.IsLoopback,
            },
            DisposeHttpClient = true,
            MaxReceiveMessageSize = LargestAnswerBytes,
            MaxRetryAttempts = options.MaxAttempts,
            ServiceConfig = RetryRules.For(options),
        };
        settings.Credentials = first.Scheme == Uri.UriSchemeHttps ? ChannelCredentials.SecureSsl : ChannelCredentials.Insecure;
        ChannelSecurity.AddKey(settings, servers, options.Credentials);
        if (servers.All.Length == 1)
        {
            return GrpcChannel.ForAddress(first, settings);
        }

        settings.ServiceProvider = new FixedServers(servers);
        settings.InitialReconnectBackoff = options.InitialBackoff;
        settings.MaxReconnectBackoff = LongestReconnectPause;
        settings.ServiceConfig.LoadBalancingConfigs.Add(new RoundRobinConfig());
        return GrpcChannel.ForAddress("static:///servers", settings);
    }

    /// <summary>Tells gRPC the addresses, through the only door it has for that.</summary>
    private sealed class FixedServers(ServerAddresses servers) : IServiceProvider
    {
        private readonly ResolverFactory[] _factories =
        [
            new StaticResolverFactory(_ => [.. servers.All.Select(address => new BalancerAddress(address.Host, address.Port))]),
        ];

        public object? GetService(Type serviceType) => serviceType == typeof(IEnumerable<ResolverFactory>) ? _factories : null;
    }
}
