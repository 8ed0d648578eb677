using ClearView.Contract.Validation;

using Google.Rpc;

using Grpc.Core;

using FieldViolation = ClearView.V1.FieldViolation;
using Status = Grpc.Core.Status;

namespace ClearView.Server.Mapping;

/// <summary>Fields at fault to the status that names them all.</summary>
internal static class FieldFaults
{
    // Trailers carry the details. Clients and proxies commonly take 8 KB of them: 4 KB become 5.4 KB in base64.
    private const int MaxDetailBytes = 4096;
    private const int MaxSummaryLength = 500;

    // Of an entry within its message: a tag, and a length of two bytes.
    private const int FrameBytes = 3;

    /// <summary>The exception that refuses a request for the fields at fault.</summary>
    public static RpcException Invalid(IReadOnlyList<FieldViolation> violations) =>
        ToException(StatusCode.InvalidArgument, Summary(violations.Count), violations);

    /// <summary>How many fields are at fault, in one phrase.</summary>
    public static string Summary(int count) => count == 1 ? "1 field is at fault" : $"{count} fields are at fault";

    /// <summary>Refuses a request where anything is at fault.</summary>
    public static void ThrowIfAny(Violations violations)
    {
        if (!violations.IsEmpty)
        {
            throw Invalid(violations.ToImmutable());
        }
    }

    /// <summary>The exception that refuses a request.</summary>
    /// <param name="code">The status.</param>
    /// <param name="what">What is at fault, in one phrase.</param>
    /// <param name="violations">The fields at fault; may be empty.</param>
    public static RpcException ToException(StatusCode code, string what, IReadOnlyList<FieldViolation> violations)
    {
        if (violations.Count == 0)
        {
            return new RpcException(new Status(code, what));
        }

        var summary = what + ": " + string.Join("; ", violations.Select(violation => $"{violation.Field}: {violation.Description}"));
        var status = new Google.Rpc.Status { Code = (int)code, Message = ViolationText.Cut(summary, MaxSummaryLength) };
        status.Details.Add(Google.Protobuf.WellKnownTypes.Any.Pack(ToBadRequest(violations)));
        return status.ToRpcException();
    }

    /// <summary>The fields at fault as one message carries them: each cut to a length, up to 4 KB of them, the last of which says how many more there are.</summary>
    /// <param name="violations">The fields at fault.</param>
    public static IReadOnlyList<FieldViolation> Bounded(IReadOnlyList<FieldViolation> violations)
    {
        List<FieldViolation> bounded = [];
        var bytes = 0;
        for (var i = 0; i < violations.Count; i++)
        {
            var next = new FieldViolation { Field = ViolationText.Cut(violations[i].Field), Description = ViolationText.Cut(violations[i].Description) };
            bytes += next.CalculateSize() + FrameBytes;
            if (bytes > MaxDetailBytes)
            {
                next.Description = $"… and {violations.Count - i} more fields, from this one on.";
                bounded.Add(next);
                break;
            }

            bounded.Add(next);
        }

        return bounded;
    }

    private static BadRequest ToBadRequest(IReadOnlyList<FieldViolation> violations) => new()
    {
        FieldViolations =
        {
            Bounded(violations).Select(violation => new BadRequest.Types.FieldViolation { Field = violation.Field, Description = violation.Description }),
        },
    };
}
