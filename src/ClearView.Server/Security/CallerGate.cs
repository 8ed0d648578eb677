using System.Globalization;

using ClearView.Contract.Validation;
using ClearView.Server.Configuration;
using ClearView.Server.Faults;

using Grpc.AspNetCore.Server;
using Grpc.Core;

using Microsoft.AspNetCore.Http.Features;

namespace ClearView.Server.Security;

/// <summary>Looks who calls before anything of the call's messages is read, so that nobody unknown has the server hold what they send.</summary>
internal sealed class CallerGate(ServerOptions options, Authenticator authenticator, ILogger<CallerGate> logger)
{
    /// <summary>Largest message of an rpc that is open to everybody, with its frame, bytes.</summary>
    public const int MaxOpenBytes = 4096;

    private const string Identity = "identity";

    /// <summary>Looks and notes who calls, and goes on; or refuses the call.</summary>
    public async Task ApplyAsync(HttpContext http, RequestDelegate next)
    {
        // The bound on messages counts bytes as they come: a message that unfolds in memory would go past it.
        var encoding = http.Request.Headers["grpc-encoding"].ToString();
        if (encoding is not ("" or Identity))
        {
            http.Response.Headers["grpc-accept-encoding"] = Identity;
            Refuse(http.Response, new RpcException(new Status(
                StatusCode.Unimplemented, $"grpc-encoding: was \"{ViolationText.Cut(encoding)}\"; expected {Identity}: messages are taken uncompressed.")));
            return;
        }

        var method = http.Request.Path.Value ?? "";
        if (options.Access == AccessMode.Open)
        {
            Caller.Everybody.Note(http);
        }
        else if (RpcRules.IsOpen(method))
        {
            http.Features.GetRequiredFeature<IHttpMaxRequestBodySizeFeature>().MaxRequestBodySize = MaxOpenBytes;
        }
        else if (http.GetEndpoint()?.Metadata.GetMetadata<GrpcMethodMetadata>() is not null)
        {
            try
            {
                (await authenticator.IdentifyAsync(http, method).ConfigureAwait(false)).Note(http);
            }
            catch (Exception error)
            {
                Refuse(http.Response, error as RpcException ?? FaultStatus.Of(error, method, logger, http.RequestAborted));
                return;
            }
        }

        await next(http).ConfigureAwait(false);
    }

    // A response of headers only ("Trailers-Only"), as the protocol of gRPC over HTTP/2 has it for calls that fail at once.
    private static void Refuse(HttpResponse response, RpcException refused)
    {
        response.ContentType = "application/grpc";
        response.Headers["grpc-status"] = ((int)refused.StatusCode).ToString(CultureInfo.InvariantCulture);
        response.Headers["grpc-message"] = Uri.EscapeDataString(refused.Status.Detail);
        foreach (var trailer in refused.Trailers)
        {
            response.Headers[trailer.Key] = trailer.IsBinary ? Convert.ToBase64String(trailer.ValueBytes) : trailer.Value;
        }
    }
}
