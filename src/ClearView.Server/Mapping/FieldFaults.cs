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
    private const int MaxDescriptionLength = 400;
    private const int MaxSummaryLength = 500;

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
        var status = new Google.Rpc.Status { Code = (int)code, Message = Cut(summary, MaxSummaryLength) };
        status.Details.Add(Google.Protobuf.WellKnownTypes.Any.Pack(ToBadRequest(violations)));
        return status.ToRpcException();
    }

    private static BadRequest ToBadRequest(IReadOnlyList<FieldViolation> violations)
    {
        var badRequest = new BadRequest();
        for (var i = 0; i < violations.Count; i++)
        {
            var next = new BadRequest.Types.FieldViolation
            {
                Field = Cut(violations[i].Field, MaxDescriptionLength),
                Description = Cut(violations[i].Description, MaxDescriptionLength),
            };
            if (badRequest.CalculateSize() + next.CalculateSize() > MaxDetailBytes)
            {
                next.Description = $"… and {violations.Count - i} more fields, from this one on.";
                badRequest.FieldViolations.Add(next);
                break;
            }

            badRequest.FieldViolations.Add(next);
        }

        return badRequest;
    }

    private static string Cut(string text, int maxLength)
    {
        if (text.Length <= maxLength)
        {
            return text;
        }

        // Never between the halves of a surrogate pair.
        var length = char.IsHighSurrogate(text[maxLength - 2]) ? maxLength - 2 : maxLength - 1;
        return text[..length] + "…";
    }
}
