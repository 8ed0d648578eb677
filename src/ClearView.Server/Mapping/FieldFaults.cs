using ClearView.Contract.Validation;

using Google.Rpc;

using Grpc.Core;

using FieldViolation = ClearView.V1.FieldViolation;

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
        ToException(Code.InvalidArgument, violations.Count == 1 ? "1 field is at fault" : $"{violations.Count} fields are at fault", violations);

    /// <summary>Refuses a request where anything is at fault.</summary>
    public static void ThrowIfAny(Violations violations)
    {
        if (!violations.IsEmpty)
        {
            throw Invalid(violations.ToImmutable());
        }
    }

    /// <summary>The exception that refuses another body under an identifier that is taken.</summary>
    public static RpcException Conflict(string readingId, IReadOnlyList<FieldViolation> differences) =>
        ToException(Code.AlreadyExists, $"reading {readingId} is stored with another body; nothing was changed", differences);

    private static RpcException ToException(Code code, string what, IReadOnlyList<FieldViolation> violations)
    {
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
