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
public sealed partial class ClearViewClient : IAsyncDisposable
{
    private const int MostUnansweredSpecimens = 256;
    private const int MostUnansweredBatches = 8;

    private readonly string _servers;
    private readonly ClearViewClientOptions _options;
    private readonly GrpcChannel _channel;
    private readonly EvaluationService.EvaluationServiceClient _evaluations;
    private readonly ReadingService.ReadingServiceClient _readings;
    private readonly CatalogueService.CatalogueServiceClient _catalogue;
    private readonly SpecificationService.SpecificationServiceClient _specifications;
    private readonly JudgementService.JudgementServiceClient _judgements;
    private readonly ControlChartService.ControlChartServiceClient _controlCharts;
    private readonly StudyService.StudyServiceClient _studies;
    private readonly AuditService.AuditServiceClient _audit;
    private readonly AccessService.AccessServiceClient _access;

    private ClearViewClient(ServerAddresses servers, ClearViewClientOptions options)
    {
        _servers = servers.ToString();
        _options = options;
        _channel = ServerChannel.Open(servers, options);
        _evaluations = new EvaluationService.EvaluationServiceClient(_channel);
        _readings = new ReadingService.ReadingServiceClient(_channel);
        _catalogue = new CatalogueService.CatalogueServiceClient(_channel);
        _specifications = new SpecificationService.SpecificationServiceClient(_channel);
        _judgements = new JudgementService.JudgementServiceClient(_channel);
        _controlCharts = new ControlChartService.ControlChartServiceClient(_channel);
        _studies = new StudyService.StudyServiceClient(_channel);
        _audit = new AuditService.AuditServiceClient(_channel);
        _access = new AccessService.AccessServiceClient(_channel);
    }

    /// <summary>Makes a client. Nothing is sent before the first call.</summary>
    /// <param name="address">The server, for example http://127.0.0.1:5180 (HTTP/2 without TLS) or https://clearview.plant:5180.</param>
    /// <param name="options">Patience and credentials; <see langword="null"/> takes the defaults.</param>
    /// <exception cref="ArgumentException">The address is not an absolute http or https address.</exception>
    /// <exception cref="ClearViewCredentialsException">A file cannot be used, or the key would travel in the clear.</exception>
    public static ClearViewClient Connect(Uri address, ClearViewClientOptions? options = null) => Connect(ServerAddresses.Of(address), options);

    /// <summary>Makes a client of several servers that share a store. Nothing is sent before the first call.</summary>
    /// <param name="servers">The servers. Calls go to them in turn; one that cannot be reached is passed over until it is back.</param>
    /// <param name="options">Patience and credentials; <see langword="null"/> takes the defaults.</param>
    /// <exception cref="ClearViewCredentialsException">A file cannot be used, or the key would travel in the clear.</exception>
    public static ClearViewClient Connect(ServerAddresses servers, ClearViewClientOptions? options = null)
    {
        ArgumentNullException.ThrowIfNull(servers);
        options ??= new ClearViewClientOptions();
        options.Validate();
        return new ClearViewClient(servers, options);
    }

    /// <summary>Evaluates one specimen; nothing is stored.</summary>
    /// <param name="measurement">The measurement.</param>
    /// <param name="method">The method.</param>
    /// <param name="omitSpectra">Whether to leave the reduced spectra out of the answer; <see langword="false"/> brings them.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public Task<Evaluation> EvaluateAsync(
        Measurement measurement, Method method, bool omitSpectra = false, CancellationToken cancellationToken = default) =>
        EvaluateAsync(new EvaluateRequest { Measurement = measurement, Method = method, OmitSpectra = omitSpectra }, cancellationToken);

    /// <summary>Evaluates one specimen under a method that the server has under a name; nothing is stored.</summary>
    /// <param name="measurement">The measurement.</param>
    /// <param name="method">The method's name, and its version or 0 for the newest.</param>
    /// <param name="omitSpectra">Whether to leave the reduced spectra out of the answer; <see langword="false"/> brings them.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused, has no such method, or could not be reached.</exception>
    public Task<Evaluation> EvaluateAsync(
        Measurement measurement, MethodName method, bool omitSpectra = false, CancellationToken cancellationToken = default) =>
        EvaluateAsync(new EvaluateRequest { Measurement = measurement, MethodName = method, OmitSpectra = omitSpectra }, cancellationToken);

    /// <summary>Evaluates several specimens of one material or several places on one bottle, with means; nothing is stored.</summary>
    /// <param name="measurements">The measurements, 1 to 200.</param>
    /// <param name="method">The method.</param>
    /// <param name="omitSpectra">Whether to leave the reduced spectra out of the answer; <see langword="false"/> brings them.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>One evaluation per measurement, in their order, the means, and the summaries of the wall.</returns>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public Task<EvaluateSpecimensResponse> EvaluateSpecimensAsync(
        IEnumerable<Measurement> measurements, Method method, bool omitSpectra = false, CancellationToken cancellationToken = default) =>
        EvaluateSpecimensAsync(
            new EvaluateSpecimensRequest { Measurements = { measurements }, Method = method, OmitSpectra = omitSpectra }, cancellationToken);

    /// <summary>The same under a method that the server has under a name.</summary>
    /// <param name="measurements">The measurements, 1 to 200.</param>
    /// <param name="method">The method's name, and its version or 0 for the newest.</param>
    /// <param name="omitSpectra">Whether to leave the reduced spectra out of the answer; <see langword="false"/> brings them.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>One evaluation per measurement, in their order, the means, and the summaries of the wall.</returns>
    /// <exception cref="ClearViewCallException">The server refused, has no such method, or could not be reached.</exception>
    public Task<EvaluateSpecimensResponse> EvaluateSpecimensAsync(
        IEnumerable<Measurement> measurements, MethodName method, bool omitSpectra = false, CancellationToken cancellationToken = default) =>
        EvaluateSpecimensAsync(
            new EvaluateSpecimensRequest { Measurements = { measurements }, MethodName = method, OmitSpectra = omitSpectra }, cancellationToken);

    /// <summary>Evaluates many specimens over one stream; nothing is stored.</summary>
    /// <param name="requests">The specimens, read as the server takes them.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>One answer per request, in their order; a specimen that cannot be evaluated is answered with its violations.</returns>
    /// <exception cref="ClearViewCallException">The server could not be reached, or not again.</exception>
    public IAsyncEnumerable<EvaluateManyResponse> EvaluateManyAsync(
        IAsyncEnumerable<EvaluateManyRequest> requests, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(requests);
        return ResumeAsync(
            requests,
            call => _evaluations.EvaluateMany(call),
            static (request, response) => request.CorrelationId == response.CorrelationId,
            MostUnansweredSpecimens,
            cancellationToken);
    }

    /// <summary>Evaluates many specimens over one stream, in batches under one method; nothing is stored.</summary>
    /// <param name="requests">The batches of 1 to 200 measurements, read as the server takes them.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>
    /// One answer per batch, in their order, with an outcome per measurement; a specimen, or a batch, that cannot be evaluated is answered
    /// with its violations.
    /// </returns>
    /// <exception cref="ClearViewCallException">The server could not be reached, or not again.</exception>
    public IAsyncEnumerable<EvaluateBatchesResponse> EvaluateBatchesAsync(
        IAsyncEnumerable<EvaluateBatchesRequest> requests, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(requests);
        return ResumeAsync(
            requests,
            call => _evaluations.EvaluateBatches(call),
            static (request, response) => request.CorrelationId == response.CorrelationId,
            MostUnansweredBatches,
            cancellationToken);
    }

    /// <summary>Evaluates a measurement and stores both. When this returns, the reading is on durable storage.</summary>
    /// <param name="id">The reading's identifier, see <see cref="ReadingId"/>; repeat the same one when a post is repeated.</param>
    /// <param name="measurement">The measurement.</param>
    /// <param name="method">The method.</param>
    /// <param name="cancellationToken">Gives the call up; the reading may be stored nevertheless.</param>
    /// <returns>The stored reading, and whether it had been stored before.</returns>
    /// <exception cref="ClearViewCallException">The server refused, holds something else under the id, or could not be reached.</exception>
    public Task<PostReadingResponse> PostAsync(
        Guid id, Measurement measurement, Method method, CancellationToken cancellationToken = default) =>
        PostAsync(new PostReadingRequest { ReadingId = id.ToString("D"), Measurement = measurement, Method = method }, cancellationToken);

    /// <summary>The same under a method that the server has under a name; the reading keeps the method that was found.</summary>
    /// <param name="id">The reading's identifier, see <see cref="ReadingId"/>; repeat the same one when a post is repeated.</param>
    /// <param name="measurement">The measurement.</param>
    /// <param name="method">The method's name, and its version or 0 for the newest.</param>
    /// <param name="cancellationToken">Gives the call up; the reading may be stored nevertheless.</param>
    /// <returns>The stored reading, and whether it had been stored before.</returns>
    /// <exception cref="ClearViewCallException">
    /// The server refused, has no such method, holds something else under the id, or could not be reached.
    /// </exception>
    public Task<PostReadingResponse> PostAsync(
        Guid id, Measurement measurement, MethodName method, CancellationToken cancellationToken = default) =>
        PostAsync(new PostReadingRequest { ReadingId = id.ToString("D"), Measurement = measurement, MethodName = method }, cancellationToken);

    /// <summary>Evaluates and judges a measurement, and stores all of it. When this returns, the reading is on durable storage.</summary>
    /// <param name="id">The reading's identifier, see <see cref="ReadingId"/>; repeat the same one when a post is repeated.</param>
    /// <param name="measurement">The measurement.</param>
    /// <param name="specification">The specification's name, and its version or 0 for the newest; its method evaluates.</param>
    /// <param name="cancellationToken">Gives the call up; the reading may be stored nevertheless.</param>
    /// <returns>The stored reading with its verdict, whether it had been stored before, and the signals that it raised.</returns>
    /// <exception cref="ClearViewCallException">
    /// The server refused, has no such specification, holds something else under the id, or could not be reached.
    /// </exception>
    public Task<PostReadingResponse> PostAsync(
        Guid id, Measurement measurement, SpecificationName specification, CancellationToken cancellationToken = default) =>
        PostAsync(new PostReadingRequest { ReadingId = id.ToString("D"), Measurement = measurement, SpecificationName = specification }, cancellationToken);

    /// <summary>Posts a reading as it stands in a request. When this returns, the reading is on durable storage.</summary>
    /// <param name="request">The request, with its identifier.</param>
    /// <param name="cancellationToken">Gives the call up; the reading may be stored nevertheless.</param>
    /// <returns>The stored reading, and whether it had been stored before.</returns>
    /// <exception cref="ClearViewCallException">The server refused, holds something else under the id, or could not be reached.</exception>
    public Task<PostReadingResponse> PostAsync(PostReadingRequest request, CancellationToken cancellationToken = default) =>
        CallAsync(call => _readings.PostReadingAsync(request, call), cancellationToken);

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

    /// <summary>Gives the picture of a stored reading, bit for bit.</summary>
    /// <param name="id">The reading's identifier.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">There is no such reading, it has no picture, or the server could not be reached.</exception>
    public async Task<GetPictureResponse> GetPictureAsync(Guid id, CancellationToken cancellationToken = default)
    {
        var request = new GetPictureRequest { ReadingId = id.ToString("D") };
        return await CallAsync(call => _readings.GetPictureAsync(request, call), cancellationToken).ConfigureAwait(false);
    }

    /// <summary>Gives stored readings, page after page as they are read.</summary>
    /// <param name="filter">Filters, order and page size; its page token says where to begin.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public async IAsyncEnumerable<Reading> ListAsync(
        ListReadingsRequest filter, [EnumeratorCancellation] CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(filter);
        var pages = PagesAsync(
            filter.PageToken,
            (token, call) => _readings.ListReadingsAsync(new ListReadingsRequest(filter) { PageToken = token }, call),
            page => page.NextPageToken,
            cancellationToken);
        await foreach (var page in pages.ConfigureAwait(false))
        {
            foreach (var reading in page.Readings)
            {
                yield return reading;
            }
        }
    }

    /// <summary>Closes the connection.</summary>
    public ValueTask DisposeAsync()
    {
        _channel.Dispose();
        return ValueTask.CompletedTask;
    }

    private async Task<Evaluation> EvaluateAsync(EvaluateRequest request, CancellationToken cancellationToken)
    {
        var response = await CallAsync(call => _evaluations.EvaluateAsync(request, call), cancellationToken).ConfigureAwait(false);
        return response.Evaluation;
    }

    private Task<EvaluateSpecimensResponse> EvaluateSpecimensAsync(EvaluateSpecimensRequest request, CancellationToken cancellationToken) =>
        CallAsync(call => _evaluations.EvaluateSpecimensAsync(request, call), cancellationToken);

    // Every page of a list, one after the other; a list that gives the same token again does not advance.
    private async IAsyncEnumerable<TPage> PagesAsync<TPage>(
        string firstToken,
        Func<string, CallOptions, AsyncUnaryCall<TPage>> call,
        Func<TPage, string> nextToken,
        [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        for (var token = firstToken; ;)
        {
            var page = await CallAsync(options => call(token, options), cancellationToken).ConfigureAwait(false);
            yield return page;
            var next = nextToken(page);
            if (next.Length == 0)
            {
                yield break;
            }
            if (next == token)
            {
                throw CallFault.From(new RpcException(new Status(StatusCode.Internal, "the list does not advance")), _servers);
            }
            token = next;
        }
    }

    private async IAsyncEnumerable<TResponse> ResumeAsync<TRequest, TResponse>(
        IAsyncEnumerable<TRequest> requests,
        Func<CallOptions, AsyncDuplexStreamingCall<TRequest, TResponse>> begin,
        Func<TRequest, TResponse, bool> belongs,
        int mostUnanswered,
        [EnumeratorCancellation] CancellationToken cancellationToken)
        where TRequest : class
        where TResponse : class
    {
        using var stream = new ResumingStream<TRequest, TResponse>(begin, belongs, _servers, _options, mostUnanswered);
        await foreach (var response in stream.RunAsync(requests, cancellationToken).ConfigureAwait(false))
        {
            yield return response;
        }
    }

    // A fault after the first answer is the caller's to see: the store may have changed since, so that nothing is taken up halfway.
    private async IAsyncEnumerable<T> StreamAsync<T>(
        Func<CallOptions, AsyncServerStreamingCall<T>> start, [EnumeratorCancellation] CancellationToken cancellationToken)
    {
        using var call = start(new CallOptions(cancellationToken: cancellationToken));
        while (await NextAsync(call.ResponseStream, cancellationToken).ConfigureAwait(false))
        {
            yield return call.ResponseStream.Current;
        }
    }

    // The deadline bounds the wait for each answer, since a long stream takes its time as a whole.
    private async Task<bool> NextAsync<T>(IAsyncStreamReader<T> answers, CancellationToken cancellationToken)
    {
        try
        {
            return await answers.MoveNext(cancellationToken).WaitAsync(_options.CallDeadline, cancellationToken).ConfigureAwait(false);
        }
        catch (TimeoutException)
        {
            throw CallFault.From(new RpcException(new Status(StatusCode.DeadlineExceeded, "")), _servers);
        }
        catch (RpcException e)
        {
            cancellationToken.ThrowIfCancellationRequested();
            throw CallFault.From(e, _servers);
        }
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
            throw CallFault.From(e, _servers);
        }
    }
}
