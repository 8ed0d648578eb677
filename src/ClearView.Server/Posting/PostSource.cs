using Grpc.Core;

namespace ClearView.Server.Posting;

/// <summary>Where a post comes from, as the server sees it.</summary>
/// <param name="Peer">Network address of the poster.</param>
/// <param name="KeyName">Name of the key or certificate that the poster showed; "" where none was asked for.</param>
internal sealed record PostSource(string Peer, string KeyName)
{
    /// <summary>The source of a call.</summary>
    public static PostSource Of(ServerCallContext context) => new(context.Peer, KeyName: "");
}
