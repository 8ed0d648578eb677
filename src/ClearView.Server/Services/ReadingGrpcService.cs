using ClearView.Contract.Decisions;
using ClearView.Contract.Validation;
using ClearView.Records.Model;
using ClearView.Server.Live;
using ClearView.Server.Mapping;
using ClearView.Server.Security;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>Stored readings, on the wire.</summary>
internal sealed class ReadingGrpcService(
    IReadingStore store,
    EvaluateMeasurement evaluate,
    MethodResolver methods,
    SpecificationResolver specifications,
    LiveCharts charts,
    ILogger<ReadingGrpcService> logger)
    : ReadingService.ReadingServiceBase
{
    // Clients accept 4 MB by default; a page ends before that.
    private const int MaxPageBytes = 3_500_000;

    // Without spectra a page takes little on the wire, but the store still reads whole readings.
    private const long MaxPageBytesRead = 64_000_000;

    public override async Task<PostReadingResponse> PostReading(PostReadingRequest request, ServerCallContext context)
    {
        var caller = Caller.Of(context);
        caller.CheckStation(LineOf(request));

        // A reading that is stored stays answered as it was, even where a later version of the software would no longer
        // accept it, or where its method's name has a newer version since. Hence the look before anything is evaluated.
        List<FieldViolation> violations = [];
        if (!ReadingIds.TryRead(request.ReadingId, out var id, out var idViolation))
        {
            violations.Add(idViolation);
        }
        else if (await store.FindAsync(id, context.CancellationToken).ConfigureAwait(false) is { } earlier
            && PostedBody.IsSame(earlier, request))
        {
            return AlreadyStored(earlier);
        }

        var specification = await FindSpecificationAsync(request, violations, context.CancellationToken).ConfigureAwait(false);
        var method = specification is not null && request.MethodChoiceCase == PostReadingRequest.MethodChoiceOneofCase.None
            ? specification.MethodChoice
            : await methods.ResolveAsync(request.Method, request.MethodName, context.CancellationToken).ConfigureAwait(false);
        var outcome = evaluate(request.Measurement, method);
        violations.AddRange(outcome.Violations);
        if (violations.Count > 0 || !outcome.IsAccepted)
        {
            ReadingLog.Refused(logger, violations.Count, violations[0].Field);
            throw FieldFaults.Invalid(violations);
        }

        var verdict = specification is null ? null : ReadingJudge.Judge(specification, request.Measurement, outcome.Evaluation);

        // What was accepted is stored whether or not its poster still waits.
        var entry = ReadingMapper.ToEntry(id, request.Measurement, method.Method!, outcome.Evaluation, verdict);
        var appended = await store.AppendAsync(entry, CancellationToken.None).ConfigureAwait(false);
        if (!appended.AlreadyStored)
        {
            ReadingLog.Stored(logger, id);
            return new PostReadingResponse
            {
                Reading = ReadingMapper.ToReading(appended.Reading),
                Signals = { await charts.CheckAsync(entry, appended.Reading.Sequence).ConfigureAwait(false) },
            };
        }

        // What differs would tell of a line that is not the caller's.
        caller.CheckStation(appended.Reading.Entry.Line);
        return PostedBody.IsSame(appended.Reading, request)
            ? AlreadyStored(appended.Reading)
            : throw Conflict(appended.Reading, request);
    }

    public override async Task<GetReadingResponse> GetReading(GetReadingRequest request, ServerCallContext context)
    {
        if (!ReadingIds.TryRead(request.ReadingId, out var id, out var violation))
        {
            throw FieldFaults.Invalid([violation]);
        }

        var stored = await store.FindAsync(id, context.CancellationToken).ConfigureAwait(false)
            ?? throw new RpcException(new Status(StatusCode.NotFound, $"No reading {ReadingIds.Write(id)} is stored."));
        Caller.Of(context).CheckStation(stored.Entry.Line);
        return new GetReadingResponse { Reading = ReadingMapper.ToReading(stored) };
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

    private static string LineOf(PostReadingRequest request) => request.Measurement?.Identification?.Line ?? "";

    private async Task<ResolvedSpecification?> FindSpecificationAsync(
        PostReadingRequest request, List<FieldViolation> violations, CancellationToken cancellationToken)
    {
        if (request.SpecificationName is null)
        {
            return null;
        }

        var found = new Violations();
        var specification = await specifications.FindAsync(request.SpecificationName, found, cancellationToken).ConfigureAwait(false);
        violations.AddRange(found.ToImmutable());
        return specification;
    }

    private PostReadingResponse AlreadyStored(StoredReading stored)
    {
        ReadingLog.PostedAgain(logger, stored.Entry.Id);
        return new PostReadingResponse { Reading = ReadingMapper.ToReading(stored), AlreadyStored = true };
    }

    private RpcException Conflict(StoredReading stored, PostReadingRequest request)
    {
        var differences = PostedBody.Differences(stored, request);
        ReadingLog.Conflict(logger, stored.Entry.Id, differences.Count);
        return FieldFaults.Conflict(ReadingIds.Write(stored.Entry.Id), differences);
    }
}
