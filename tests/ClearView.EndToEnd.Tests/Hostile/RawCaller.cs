using System.Buffers.Binary;
using System.Globalization;
using System.Net;
using System.Net.Http.Headers;

using Grpc.Core;

namespace ClearView.EndToEnd.Tests.Hostile;

/// <summary>Calls a server with bytes of the test's choice, as the gRPC protocol over HTTP/2 frames them.</summary>
internal sealed class RawCaller(Uri server) : IDisposable
{
    private readonly HttpClient _http = new(new SocketsHttpHandler()) { BaseAddress = server, Timeout = TimeSpan.FromSeconds(60) };

    public void Dispose() => _http.Dispose();

    /// <summary>Sends one message.</summary>
    /// <param name="service">Full name of the service.</param>
    /// <param name="method">The method.</param>
    /// <param name="message">The bytes of the message.</param>
    /// <param name="deadline">What the server is told that the caller waits, at most 99 s.</param>
    /// <param name="cancellationToken">Gives up.</param>
    /// <returns>What the server answered; <see langword="null"/> where it cut the call off.</returns>
    public async Task<StatusCode?> CallAsync(string service, string method, byte[] message, TimeSpan deadline, CancellationToken cancellationToken)
    {
        const int prefix = 5;
        var frame = new byte[prefix + message.Length];
        BinaryPrimitives.WriteInt32BigEndian(frame.AsSpan(1), message.Length);
        message.CopyTo(frame, prefix);
        using var content = new ByteArrayContent(frame);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/grpc");
        using var request = new HttpRequestMessage(HttpMethod.Post, $"/{service}/{method}")
        {
            Content = content,
            Version = HttpVersion.Version20,
            VersionPolicy = HttpVersionPolicy.RequestVersionExact,
        };
        request.Headers.TE.Add(new TransferCodingWithQualityHeaderValue("trailers"));
        request.Headers.TryAddWithoutValidation("grpc-timeout", FormattableString.Invariant($"{deadline.TotalMilliseconds:F0}m"));
        try
        {
            using var response = await _http.SendAsync(request, cancellationToken);
            await response.Content.ReadAsByteArrayAsync(cancellationToken);
            var status = Header(response.TrailingHeaders) ?? Header(response.Headers);
            return status is null ? null : (StatusCode)int.Parse(status, CultureInfo.InvariantCulture);
        }
        catch (HttpRequestException)
        {
            return null;
        }
    }

    private static string? Header(HttpResponseHeaders headers) => headers.TryGetValues("grpc-status", out var values) ? values.First() : null;
}
