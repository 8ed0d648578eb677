using Grpc.AspNetCore.Server;
using Grpc.Core;

namespace ClearView.Server.Security;

/// <summary>Gives a unary call a deadline where its caller set none, so that no call takes for ever. Streams last as long as they are wanted.</summary>
internal static class UnaryDeadlines
{
    /// <summary>The deadline that is set, as gRPC writes it: 60 s.</summary>
    public const string Imposed = "60S";

    private const string Header = "grpc-timeout";

    /// <summary>Sets it, and goes on.</summary>
    public static Task ApplyAsync(HttpContext http, RequestDelegate next)
    {
        if (http.GetEndpoint()?.Metadata.GetMetadata<GrpcMethodMetadata>()?.Method.Type == MethodType.Unary
            && !http.Request.Headers.ContainsKey(Header))
        {
            http.Request.Headers[Header] = Imposed;
        }

        return next(http);
    }
}
