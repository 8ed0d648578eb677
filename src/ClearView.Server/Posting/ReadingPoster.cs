using ClearView.Contract.Decisions;
using ClearView.Contract.Validation;
using ClearView.Records.Model;
using ClearView.Server.Faults;
using ClearView.Server.Live;
using ClearView.Server.Mapping;
using ClearView.Server.Security;
using ClearView.Server.Services;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Posting;

/// <summary>The one rule by which posts are accepted, refused or known already, singly and on a stream.</summary>
/// <remarks>
/// A reading that is stored stays answered as it was, even where a later version of the software would no longer accept it, or where
/// its method's name has a newer version since: the store itself finds an identifier that is taken, and a post that is to be refused
/// is looked up before it is.
/// </remarks>
internal sealed class ReadingPoster(
    IReadingStore store,
    IRecordedStore recorded,
    EvaluateMeasurement evaluate,
    MethodResolver methods,
    SpecificationResolver specifications,
    LiveCharts charts,
    TimeProvider clock,
    ILogger<ReadingPoster> logger)
{
    /// <summary>Largest post that is accepted, bytes (4 MB).</summary>
    public const int MaxPostBytes = 4 * 1024 * 1024;

    /// <summary>Evaluates a post and hands it to the store. Posts of a lane reach the store in the order of the calls.</summary>
    /// <param name="request">The post.</param>
    /// <param name="length">Its bytes on the wire.</param>
    /// <param name="source">Where it comes from.</param>
    /// <param name="lane">What it must not overtake; <see langword="null"/> where it stands alone.</param>
    /// <param name="cancellationToken">Gives it up before it is handed over. What was handed over is stored whether or not its poster still waits.</param>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public async Task<PendingPost> TakeAsync(
        PostReadingRequest request, int length, PostSource source, WriteLane? lane, CancellationToken cancellationToken)
    {
        if (await StationViolationAsync(request, source.Caller, cancellationToken).ConfigureAwait(false) is { } foreign)
        {
            PostLog.Refused(logger, 1, foreign.Field);
            return new PendingPost(request, PostOutcome.Refused(NotItsStation(foreign)), null, null);
        }

        var violations = new List<FieldViolation>();
        if (!ReadingIds.TryRead(request.ReadingId, out var id, out var idViolation))
        {
            violations.Add(idViolation);
        }

        if (length > MaxPostBytes)
        {
            return await RefuseAsync(request, id, TooLarge(length), cancellationToken).ConfigureAwait(false);
        }

        try
        {
            var picture = PostParts.Check(request, id, clock, violations);
            var specification = await FindSpecificationAsync(request, violations, cancellationToken).ConfigureAwait(false);
            var method = specification is not null && request.MethodChoiceCase == PostReadingRequest.MethodChoiceOneofCase.None
                ? specification.MethodChoice
                : await methods.ResolveAsync(request.Method, request.MethodName, cancellationToken).ConfigureAwait(false);
            var outcome = evaluate(request.Measurement, method, omitSpectra: false);
            violations.AddRange(outcome.Violations);
            if (violations.Count > 0 || !outcome.IsAccepted)
            {
                var fault = new PostFault(StatusCode.InvalidArgument, FieldFaults.Summary(violations.Count), violations);
                return await RefuseAsync(request, id, fault, cancellationToken).ConfigureAwait(false);
            }

            var verdict = specification is null ? null : ReadingJudge.Judge(specification, request.Measurement, outcome.Evaluation);
            var entry = ReadingMapper.ToEntry(id, request.Measurement, method.Method!, outcome.Evaluation, verdict);
            entry = entry with { AwaitsSignals = await charts.MayRaiseAsync(entry).ConfigureAwait(false) };
            entry = PostParts.Add(entry, request, source, picture);
            return new PendingPost(request, null, entry, store.AppendAsync(entry, lane, CancellationToken.None));
        }
        catch (DocumentNotFoundException notFound)
        {
            return await RefuseAsync(request, id, new PostFault(StatusCode.NotFound, notFound.Message, []), cancellationToken).ConfigureAwait(false);
        }
    }

    /// <summary>Waits until a post is decided, and holds a reading that is new against the charts.</summary>
    /// <param name="pending">The post.</param>
    /// <param name="caller">Who posts.</param>
    /// <exception cref="StoreUnavailableException">The store could not take the reading; trying again is safe.</exception>
    public async Task<PostOutcome> FinishAsync(PendingPost pending, Caller caller)
    {
        if (pending.Append is null)
        {
            return pending.Decided!;
        }

        var appended = await pending.Append.ConfigureAwait(false);
        if (appended.Refusal is { } refusal)
        {
            var fault = PostParts.ToFault(refusal, pending.Request.Corrects);
            PostLog.CorrectionRefused(logger, fault.Summary);
            return PostOutcome.Refused(fault);
        }

        if (appended.Retired is { } retired)
        {
            return PostOutcome.Refused(new PostFault(
                StatusCode.AlreadyExists, $"the identifier is taken by a reading that was {retired}; nothing was changed", []));
        }

        if (!appended.AlreadyStored)
        {
            PostLog.Stored(logger, pending.Entry!.Id);
            var signals = await charts.CheckAsync(pending.Entry, appended.Reading.Sequence).ConfigureAwait(false);
            return PostOutcome.New(await SettleAsync(pending.Entry, appended.Reading, signals).ConfigureAwait(false), signals);
        }

        // What differs would tell of a line that is not the caller's.
        if (caller.StationViolation(appended.Reading.Entry.Line) is not null)
        {
            return PostOutcome.Refused(new PostFault(
                StatusCode.AlreadyExists, "the identifier is taken by a reading of another line; nothing was changed", []));
        }

        return PostedBody.IsSame(appended.Reading, pending.Request) ? Known(appended.Reading) : Conflict(appended.Reading, pending.Request);
    }

    /// <summary>Reads a stored reading again, to send it; <see langword="null"/> where it is retired meanwhile.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read now.</exception>
    public async Task<Reading?> RecallAsync(Guid id, CancellationToken cancellationToken) =>
        await store.FindAsync(id, cancellationToken).ConfigureAwait(false) is { } stored ? ReadingMapper.ToReading(stored) : null;

    private static string LineOf(PostReadingRequest request) => request.Measurement?.Identification?.Line ?? "";

    // A correction takes its reading out of the charts, which is for those of its line as well.
    private async Task<FieldViolation?> StationViolationAsync(PostReadingRequest request, Caller caller, CancellationToken cancellationToken)
    {
        if (caller.StationViolation(LineOf(request)) is { } ofPost)
        {
            return ofPost;
        }

        return caller.Role == Role.Line
            && Guid.TryParseExact(request.Corrects?.ReadingId, "D", out var corrected)
            && await store.FindAsync(corrected, cancellationToken).ConfigureAwait(false) is { } earlier
            && caller.StationViolation(earlier.Entry.Line) is not null
            ? new FieldViolation { Field = "corrects.reading_id", Description = $"is of a line that the key {caller.Name} is not for." }
            : null;
    }

    private static PostFault NotItsStation(FieldViolation foreign) =>
        new(StatusCode.PermissionDenied, "the key is not for this line", [foreign]);

    private static PostFault TooLarge(int length) => new(
        StatusCode.ResourceExhausted,
        "the post exceeds the maximum message size",
        [new FieldViolation { Field = "measurement", Description = FormattableString.Invariant($"{length} bytes with the rest of the post; expected up to {MaxPostBytes}.") }]);

    // The reading is stored whatever becomes of its signals, and its poster is told so.
    private async Task<StoredReading> SettleAsync(ReadingEntry entry, StoredReading reading, IReadOnlyList<RaisedSignal> signals)
    {
        if (signals.Count == 0 && !entry.AwaitsSignals)
        {
            return reading;
        }

        var bytes = ReadingMapper.ToBytes(signals);
        var settling = SettleAsync(reading, bytes);
        if (signals.Count > 0)
        {
            await settling.ConfigureAwait(false);
        }

        return reading with { Signals = bytes };
    }

    private async Task SettleAsync(StoredReading reading, byte[] signals)
    {
        try
        {
            await recorded.SettleAsync(reading, signals).ConfigureAwait(false);
        }
        catch (Exception error) when (error is StoreUnavailableException or ObjectDisposedException)
        {
            PostLog.SignalsNotStored(logger, error, reading.Entry.Id);
        }
    }

    private async Task<PendingPost> RefuseAsync(PostReadingRequest request, Guid id, PostFault fault, CancellationToken cancellationToken)
    {
        if (id != Guid.Empty
            && await store.FindAsync(id, cancellationToken).ConfigureAwait(false) is { } earlier
            && PostedBody.IsSame(earlier, request))
        {
            return new PendingPost(request, Known(earlier), null, null);
        }

        if (fault.Violations.Count > 0)
        {
            PostLog.Refused(logger, fault.Violations.Count, fault.Violations[0].Field);
        }
        else
        {
            PostLog.NotFound(logger, fault.Summary);
        }

        return new PendingPost(request, PostOutcome.Refused(fault), null, null);
    }

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

    private PostOutcome Known(StoredReading stored)
    {
        PostLog.PostedAgain(logger, stored.Entry.Id);
        return PostOutcome.Known(stored);
    }

    private PostOutcome Conflict(StoredReading stored, PostReadingRequest request)
    {
        var differences = PostedBody.Differences(stored, request);
        PostLog.Conflict(logger, stored.Entry.Id, differences.Count);
        return PostOutcome.Refused(new PostFault(
            StatusCode.AlreadyExists, $"reading {ReadingIds.Write(stored.Entry.Id)} is stored with another body; nothing was changed", differences));
    }
}
