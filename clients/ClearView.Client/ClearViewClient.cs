using System.Net;
using System.Runtime.CompilerServices;

using ClearView.Client.Calls;
using ClearView.V1;

using Grpc.Core;
using Grpc.Net.Client;

namespace ClearView.Client;

/// <summary>Calls a ClearView server. One instance serves any number of concurrent calls; share it.</summary>
/// <remarks>
/// Every call has a deadline. A call is repeated only where the contract says that this is safe, only when the server is
/// unavailable, and with jittered pauses. Any other fault is a <see cref="ClearViewCallException"/> at once.
/// </remarks>
public sealed class ClearViewClient : IAsyncDisposable
{
    // A page of long scans is larger than the 4 MB that gRPC takes by itself; the server is one that the caller chose.
    private const int LargestAnswerBytes = 256 * 1024 * 1024;

    private readonly Uri _address;
    private readonly ClearViewClientOptions _options;
    private readonly GrpcChannel _channel;
    private readonly EvaluationService.EvaluationServiceClient _evaluations;
    private readonly ReadingService.ReadingServiceClient _readings;

    private ClearViewClient(Uri address, ClearViewClientOptions options)
    {
        _address = address;
        _options = options;
        _channel = GrpcChannel.ForAddress(address, new GrpcChannelOptions
        {
            HttpHandler = new SocketsHttpHandler
            {
                ConnectTimeout = TimeSpan.FromSeconds(5),
                EnableMultipleHttp2Connections = true,
                AutomaticDecompression = DecompressionMethods.None,
                UseProxy = !address.IsLoopback,
            },
            DisposeHttpClient = true,
            MaxReceiveMessageSize = LargestAnswerBytes,
            MaxRetryAttempts = options.MaxAttempts,
            ServiceConfig = RetryRules.For(options),
        });
        _evaluations = new EvaluationService.EvaluationServiceClient(_channel);
        _readings = new ReadingService.ReadingServiceClient(_channel);
    }

    /// <summary>Makes a client. Nothing is sent before the first call.</summary>
    /// <param name="address">The server, for example http://127.0.0.1:5180 (HTTP/2 without TLS).</param>
    /// <param name="options">Patience; <see langword="null"/> takes the defaults.</param>
    /// <exception cref="ArgumentException">The address is not an absolute http or https address.</exception>
    public static ClearViewClient Connect(Uri address, ClearViewClientOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(address);
        if (!address.IsAbsoluteUri || (address.Scheme != Uri.UriSchemeHttp && address.Scheme != Uri.UriSchemeHttps))
        {
            throw new ArgumentException($"\"{address}\" is not an absolute http or https address.", nameof(address));
        }
        options ??= new ClearViewClientOptions();
        options.Validate();
        return new ClearViewClient(address, options);
    }

    /// <summary>Evaluates one specimen; nothing is stored.</summary>
    /// <param name="measurement">The measurement.</param>
    /// <param name="method">The method.</param>
    /// <param name="omitSpectra">Whether to leave the reduced spectra out of the answer; <see langword="false"/> brings them.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public async Task<Evaluation> EvaluateAsync(
        Measurement measurement, Method method, bool omitSpectra = false, CancellationToken cancellationToken = default)
    {
        var request = new EvaluateRequest { Measurement = measurement, Method = method, OmitSpectra = omitSpectra };
        var response = await CallAsync(call => _evaluations.EvaluateAsync(request, call), cancellationToken).ConfigureAwait(false);
        return response.Evaluation;
    }

    /// <summary>Evaluates many specimens over one stream; nothing is stored.</summary>
    /// <param name="requests">The specimens, read as the server takes them.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>One answer per request, in their order; a specimen that cannot be evaluated is answered with its violations.</returns>
    /// <exception cref="ClearViewCallException">The server could not be reached, or not again.</exception>
    public async IAsyncEnumerable<EvaluateManyResponse> EvaluateManyAsync(
        IAsyncEnumerable<EvaluateManyRequest> requests, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(requests);
        using var stream = new EvaluationStream(_evaluations, _address, _options);
        await foreach (var response in stream.RunAsync(requests, cancellationToken).ConfigureAwait(false))
        {
            yield return response;
        }
    }

    /// <summary>Evaluates a measurement and stores both. When this returns, the reading is on durable storage.</summary>
    /// <param name="id">The reading's identifier, see <see cref="ReadingId"/>; repeat the same one when a post is repeated.</param>
    /// <param name="measurement">The measurement.</param>
    /// <param name="method">The method.</param>
    /// <param name="cancellationToken">Gives the call up; the reading may be stored nevertheless.</param>
    /// <returns>The stored reading, and whether it had been stored before.</returns>
    /// <exception cref="ClearViewCallException">The server refused, holds something else under the id, or could not be reached.</exception>
    public async Task<PostReadingResponse> PostAsync(
        Guid id, Measurement measurement, Method method, CancellationToken cancellationToken = default)
    {
        var request = new PostReadingRequest { ReadingId = id.ToString("D"), Measurement = measurement, Method = method };
        return await CallAsync(call => _readings.PostReadingAsync(request, call), cancellationToken).ConfigureAwait(false);
    }

    /// <summary>Gives one stored reading, with its raw scans.</summary>
    /// <param name="id">The reading's identifier.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">There is no such reading, or the server could not be reached.</exception>
    public async Task<Reading> GetAsync(Guid id, CancellationToken cancellationToken = default)
    {
        var request = new GetReadingRequest { ReadingId = id.ToString("D") };
        var response = await CallAsync(call => _readings.GetReadingAsync(request, call), cancellationToken).ConfigureAwait(false);
        return response.Reading;
    }

    /// <summary>Gives stored readings, page after page as they are read.</summary>
    /// <param name="filter">Filters, order and page size; its page token says where to begin.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public async IAsyncEnumerable<Reading> ListAsync(
        ListReadingsRequest filter, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(filter);
        var request = filter.Clone();
        while (true)
        {
            var page = await CallAsync(call => _readings.ListReadingsAsync(request, call), cancellationToken).ConfigureAwait(false);
            foreach (var reading in page.Readings)
            {
                yield return reading;
            }
            if (page.NextPageToken.Length == 0)
            {
                yield break;
            }
            if (page.NextPageToken == request.PageToken)
            {
                throw CallFault.From(new RpcException(new Status(StatusCode.Internal, "the list does not advance")), _address);
            }
            request.PageToken = page.NextPageToken;
        }
    }

    /// <summary>Closes the connection.</summary>
    public ValueTask DisposeAsync()
    {
        _channel.Dispose();
        return ValueTask.CompletedTask;
    }

    private async Task<T> CallAsync<T>(Func<CallOptions, AsyncUnaryCall<T>> call, CancellationToken cancellationToken)
    {
        try
        {
            return await call(new CallOptions(deadline: DateTime.UtcNow + _options.CallDeadline, cancellationToken: cancellationToken)).ConfigureAwait(false);
        }
        catch (RpcException e)
        {
            cancellationToken.ThrowIfCancellationRequested();
            throw CallFault.From(e, _address);
        }
    }
}
