using System.Net.Http.Headers;

using ClearView.V1;

using Google.Protobuf.WellKnownTypes;
using Google.Rpc;

using Grpc.Core;

using Status = Grpc.Core.Status;

namespace ClearView.Server.Security;

/// <summary>Finds out who calls, by the key or the client certificate that came with the call.</summary>
internal sealed class Authenticator(KeyCache keys, CallRates rates, TimeProvider clock, ILogger<Authenticator> logger)
{
    private const string Scheme = "Bearer";

    /// <summary>The caller, whose call is counted.</summary>
    /// <exception cref="RpcException">UNAUTHENTICATED, or RESOURCE_EXHAUSTED where it calls or fails too often.</exception>
    /// <exception cref="Records.Model.StoreUnavailableException">The keys cannot be read now.</exception>
    public async Task<Caller> IdentifyAsync(HttpContext http, string method)
    {
        var ring = await keys.GetAsync(http.RequestAborted).ConfigureAwait(false);
        var (key, problem) = Find(http, ring);
        problem ??= key!.StateAt(clock.GetUtcNow()) switch
        {
            KeyState.Active => null,
            KeyState.Expired => $"The key {key.Name} has expired.",
            _ => $"The key {key.Name} is revoked.",
        };
        if (problem is not null)
        {
            throw Refused(AddressOf(http), method, problem);
        }

        return rates.TryCall(key!.Name, out var wait)
            ? new Caller(key.Name, key.Role, key.Stations)
            : throw TooOften($"The key {key.Name} calls too often.", wait);
    }

    /// <summary>Looks whether the key of a stream that is open still opens.</summary>
    /// <exception cref="RpcException">UNAUTHENTICATED: it has expired or was revoked.</exception>
    public async ValueTask RecheckAsync(Caller caller, CancellationToken cancellationToken)
    {
        var ring = await keys.GetAsync(cancellationToken).ConfigureAwait(false);
        if (ring.FindByName(caller.Name)?.StateAt(clock.GetUtcNow()) is not KeyState.Active)
        {
            throw new RpcException(new Status(StatusCode.Unauthenticated, $"The key {caller.Name} has expired or was revoked."));
        }
    }

    /// <summary>The address of a caller, without its port.</summary>
    public static string AddressOf(HttpContext http) => http.Connection.RemoteIpAddress?.ToString() ?? "unknown";

    private (KeyRecord? Key, string? Problem) Find(HttpContext http, KeyRing ring)
    {
        // RFC 6750, section 2.1: "Bearer" and the token; the scheme's case does not count (RFC 9110, section 11.1).
        var header = http.Request.Headers.Authorization;
        if (header.Count > 0)
        {
            var isBearer = AuthenticationHeaderValue.TryParse(header.ToString(), out var value)
                && header.Count == 1
                && Scheme.Equals(value.Scheme, StringComparison.OrdinalIgnoreCase);
            if (!isBearer || !KeySecret.TryHash(value!.Parameter ?? "", out var hash))
            {
                return (null, "What came in \"authorization\" is not \"Bearer\" and a key.");
            }

            return ring.FindByHash(hash) is { } bySecret ? (bySecret, null) : (null, "The key is not known.");
        }

        if (http.Connection.ClientCertificate is not { } certificate)
        {
            return (null, "No key and no client certificate came with the call.");
        }

        // A connection may outlast the certificate that it began with.
        if (certificate.NotAfter.ToUniversalTime() <= clock.GetUtcNow().UtcDateTime)
        {
            return (null, "The client certificate has expired.");
        }

        return ClientCertificates.NameOf(certificate) is { } name && ring.FindByName(name) is { ByCertificate: true } byCertificate
            ? (byCertificate, null)
            : (null, "The client certificate names no key by certificate.");
    }

    private RpcException Refused(string address, string method, string problem)
    {
        if (!rates.TryFail(address, out var wait))
        {
            return TooOften("Too many calls from this address did not identify themselves.", wait);
        }

        SecurityLog.NotIdentified(logger, method, address, problem);
        return new RpcException(new Status(StatusCode.Unauthenticated, problem));
    }

    private static RpcException TooOften(string what, TimeSpan wait)
    {
        // Rounded up, so that who waits as told is not told again.
        var retry = TimeSpan.FromMilliseconds(Math.Ceiling(wait.TotalMilliseconds));
        var status = new Google.Rpc.Status { Code = (int)Code.ResourceExhausted, Message = what + " Try again later." };
        status.Details.Add(Any.Pack(new RetryInfo { RetryDelay = retry.ToDuration() }));
        return status.ToRpcException();
    }
}
