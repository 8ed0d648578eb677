using ClearView.Contract.Validation;
using ClearView.Records.Model;
using ClearView.Server.Hosting;
using ClearView.Server.Mapping;
using ClearView.Server.Posting;
using ClearView.Server.Security;
using ClearView.Server.Watching;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>Stored readings, on the wire.</summary>
internal sealed class ReadingGrpcService(
    IReadingStore store,
    IRecordedStore recorded,
    IPictureStore pictures,
    ReadingPoster poster,
    RecordingRoom recordingRoom,
    WatchPace pace,
    OpenStreams openStreams,
    ILogger<ReadingGrpcService> logger)
    : ReadingService.ReadingServiceBase
{
    // Clients accept 4 MB by default; a page ends before that.
    private const int MaxPageBytes = 3_500_000;

    // Without spectra a page takes little on the wire, but the store still reads whole readings.
    private const long MaxPageBytesRead = 64_000_000;

    public override async Task<PostReadingResponse> PostReading(PostReadingRequest request, ServerCallContext context)
    {
        var source = PostSource.Of(context);
        var length = request.CalculateSize();
        using var place = await recordingRoom.EnterOrTurnAwayAsync(length, context.CancellationToken).ConfigureAwait(false)
            ?? throw PostAnswers.TurnedAway();
        var pending = await poster.TakeAsync(request, length, source, lane: null, context.CancellationToken).ConfigureAwait(false);
        return PostAnswers.ToResponse(await poster.FinishAsync(pending, source.Caller).ConfigureAwait(false));
    }

    public override async Task PostReadings(
        IAsyncStreamReader<PostReadingsRequest> requestStream,
        IServerStreamWriter<PostReadingsResponse> responseStream,
        ServerCallContext context)
    {
        openStreams.Add(context.GetHttpContext().Response);
        var stream = new PostStream(
            poster, recordingRoom, PostSource.Of(context), requestStream, responseStream, context.CancellationToken, openStreams.Stopping);
        try
        {
            await stream.RunAsync().ConfigureAwait(false);
        }
        finally
        {
            PostLog.StreamEnded(logger, stream.StoredCount, stream.KnownCount, stream.RefusedCount);
        }
    }

    public override async Task WatchReadings(
        WatchReadingsRequest request, IServerStreamWriter<WatchReadingsResponse> responseStream, ServerCallContext context)
    {
        Caller.Of(context).CheckStation(request.Line);
        openStreams.Add(context.GetHttpContext().Response);
        var violations = new Violations();
        var query = WatchQueries.Read(request, violations);
        FieldFaults.ThrowIfAny(violations);
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken, openStreams.Stopping);
        var watch = new ReadingWatch(recorded, request, query, pace, response => openStreams.WriteAsync(responseStream, response, context));
        try
        {
            await watch.RunAsync(ending.Token).ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (openStreams.Stopping.IsCancellationRequested)
        {
            throw new RpcException(new Status(StatusCode.Unavailable, "The server is stopping; go on with the last position."));
        }
        finally
        {
            WatchLog.Ended(logger, watch.SentCount);
        }
    }

    public override async Task<GetReadingResponse> GetReading(GetReadingRequest request, ServerCallContext context)
    {
        if (!ReadingIds.TryRead(request.ReadingId, out var id, out var violation))
        {
            throw FieldFaults.Invalid([violation]);
        }

        var stored = await store.RequireAsync(id, context.CancellationToken).ConfigureAwait(false);
        Caller.Of(context).CheckStation(stored.Entry.Line);
        return new GetReadingResponse { Reading = ReadingMapper.ToReading(stored) };
    }

    public override async Task<GetPictureResponse> GetPicture(GetPictureRequest request, ServerCallContext context)
    {
        if (!ReadingIds.TryRead(request.ReadingId, out var id, out var violation))
        {
            throw FieldFaults.Invalid([violation]);
        }

        var stored = await store.RequireAsync(id, context.CancellationToken).ConfigureAwait(false);
        Caller.Of(context).CheckStation(stored.Entry.Line);
        var picture = await pictures.FindAsync(stored.Entry.Line, stored.Sequence, context.CancellationToken).ConfigureAwait(false)
            ?? throw new RpcException(new Status(StatusCode.NotFound, $"The reading {ReadingIds.Write(id)} has no picture."));
        return new GetPictureResponse
        {
            Info = PictureInfo.Parser.ParseFrom(stored.Entry.PictureInfo.Span),
            Picture = Google.Protobuf.UnsafeByteOperations.UnsafeWrap(picture),
        };
    }

    public override async Task<ListReadingsResponse> ListReadings(ListReadingsRequest request, ServerCallContext context)
    {
        Caller.Of(context).CheckStation(request.Line);
        var violations = new Violations();
        var query = ListQueries.Read(request, violations);
        FieldFaults.ThrowIfAny(violations);

        query = query with { MaxPayloadBytes = request.OmitSpectra ? MaxPageBytesRead : MaxPageBytes };
        var page = await store.ListAsync(query, context.CancellationToken).ConfigureAwait(false);
        var response = new ListReadingsResponse();
        var bytes = 0L;
        foreach (var stored in page.Readings)
        {
            var reading = ReadingMapper.ToReading(stored, request.OmitSpectra);
            bytes += reading.CalculateSize();
            if (bytes > MaxPageBytes && response.Readings.Count > 0)
            {
                break;
            }

            response.Readings.Add(reading);
        }

        if (page.HasMore || response.Readings.Count < page.Readings.Length)
        {
            var last = page.Readings[response.Readings.Count - 1].Entry;
            response.NextPageToken = PageTokens.Write(new ReadingPosition(last.MeasuredAt, last.Id), request);
        }

        return response;
    }
}
