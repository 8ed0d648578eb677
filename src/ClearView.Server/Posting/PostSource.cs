using ClearView.Server.Security;

using Grpc.Core;

namespace ClearView.Server.Posting;

/// <summary>Where a post comes from, as the server sees it.</summary>
/// <param name="Peer">Network address of the poster.</param>
/// <param name="Caller">Who posts.</param>
internal sealed record PostSource(string Peer, Caller Caller)
{
    /// <summary>Name of the key or certificate that the poster showed; "" where none was asked for.</summary>
    public string KeyName => ReferenceEquals(Caller, Caller.Everybody) ? "" : Caller.Name;

    /// <summary>The source of a call.</summary>
    public static PostSource Of(ServerCallContext context) => new(context.Peer, Caller.Of(context));
}
