using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace ClearView.Server.Security;

/// <summary>Bounds on connections, so that no client takes what is meant for all.</summary>
internal static class TransportLimits
{
    /// <summary>Most connections at a time.</summary>
    public const int MostConnections = 1000;

    /// <summary>Largest headers of a call, all together, bytes.</summary>
    public const int MaxHeaderBytes = 16 * 1024;

    /// <summary>Sets them.</summary>
    public static void Apply(KestrelServerLimits limits)
    {
        limits.MaxConcurrentConnections = MostConnections;
        limits.MaxRequestHeadersTotalSize = MaxHeaderBytes;
        limits.RequestHeadersTimeout = TimeSpan.FromSeconds(30);
        limits.Http2.MaxRequestHeaderFieldSize = MaxHeaderBytes;
        limits.Http2.MaxStreamsPerConnection = 100;

        // A half-open connection is noticed and closed within a minute.
        limits.Http2.KeepAlivePingDelay = TimeSpan.FromSeconds(30);
        limits.Http2.KeepAlivePingTimeout = TimeSpan.FromSeconds(20);
    }
}
