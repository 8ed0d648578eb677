using ClearView.Server.Mapping;
using ClearView.V1;

using Google.Protobuf.WellKnownTypes;
using Google.Rpc;

using Grpc.Core;

namespace ClearView.Server.Posting;

/// <summary>What came of posts, on the wire.</summary>
internal static class PostAnswers
{
    // Room comes free as the disk takes readings, which is a matter of moments.
    private static readonly TimeSpan RetryAfter = TimeSpan.FromSeconds(1);

    /// <summary>The answer to a single post for which there is neither room nor a place to wait for it.</summary>
    public static RpcException TurnedAway()
    {
        var status = new Google.Rpc.Status
        {
            Code = (int)Code.ResourceExhausted,
            Message = "As many posts wait to be recorded as the server has room for. Try again later.",
        };
        status.Details.Add(Any.Pack(new RetryInfo { RetryDelay = RetryAfter.ToDuration() }));
        return status.ToRpcException();
    }

    /// <summary>The answer to a single post.</summary>
    /// <exception cref="Grpc.Core.RpcException">The post is refused.</exception>
    public static PostReadingResponse ToResponse(PostOutcome outcome) => outcome.Fault is { } fault
        ? throw FieldFaults.ToException(fault.Code, fault.Summary, fault.Violations)
        : new PostReadingResponse
        {
            Reading = ReadingMapper.ToReading(outcome.Stored!),
            AlreadyStored = outcome.AlreadyStored,
            Signals = { outcome.Signals },
        };

    /// <summary>The answer to a post of a stream.</summary>
    /// <param name="request">The post.</param>
    /// <param name="outcome">What came of it.</param>
    /// <param name="includeReading">Whether the stored reading comes along.</param>
    public static PostReadingsResponse ToResponse(PostReadingRequest request, PostOutcome outcome, bool includeReading)
    {
        var response = new PostReadingsResponse { ReadingId = ReadingIds.Shown(request.ReadingId) };
        if (outcome.Fault is { } fault)
        {
            response.Refusal = new PostRefusal
            {
                StatusCode = (uint)fault.Code,
                Message = fault.Summary,
                FieldViolations = { FieldFaults.Bounded(fault.Violations) },
            };
            return response;
        }

        var stored = outcome.Stored!;
        response.Acknowledgement = new PostAcknowledgement
        {
            AlreadyStored = outcome.AlreadyStored,
            RecordedAt = stored.RecordedAt.ToTimestamp(),
            Verdict = stored.Entry.Verdict.IsEmpty ? null : Verdict.Parser.ParseFrom(stored.Entry.Verdict.Span),
            Signals = { outcome.Signals },
            Reading = includeReading ? ReadingMapper.ToReading(stored) : null,
        };
        return response;
    }
}
