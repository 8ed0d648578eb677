using System.Collections.Immutable;

using ClearView.V1;

using Google.Rpc;

using Grpc.Core;

namespace ClearView.Client.Calls;

/// <summary>Turns a failed call into plain words.</summary>
internal static class CallFault
{
    /// <summary>The exception for a failed call.</summary>
    /// <param name="fault">What gRPC says.</param>
    /// <param name="servers">The servers' addresses.</param>
    public static ClearViewCallException From(RpcException fault, string servers)
    {
        var violations = fault.GetRpcStatus()?.GetDetail<BadRequest>() is { } badRequest
            ? badRequest.FieldViolations
                .Select(violation => new FieldViolation { Field = violation.Field, Description = violation.Description })
                .ToImmutableArray()
            : [];
        return new ClearViewCallException(fault.StatusCode, Compose(fault, servers, violations), violations, fault);
    }

    /// <summary>The words for a reading that a stream refused, as those for a refused call.</summary>
    /// <param name="refusal">The refusal.</param>
    public static string Compose(PostRefusal refusal) => WithViolations(
        (StatusCode)refusal.StatusCode == StatusCode.InvalidArgument ? $"the server refused the request: {refusal.Message}" : refusal.Message,
        refusal.FieldViolations);

    private static string Compose(RpcException fault, string servers, ImmutableArray<FieldViolation> violations)
    {
        var opening = fault.StatusCode switch
        {
            StatusCode.Unavailable => $"the server at {servers} cannot be reached ({Innermost(fault)})",
            StatusCode.DeadlineExceeded => $"the server at {servers} did not answer in time",
            StatusCode.InvalidArgument => $"the server refused the request: {fault.Status.Detail}",
            StatusCode.NotFound => fault.Status.Detail is { Length: > 0 } detail ? detail : "there is nothing under that name",
            StatusCode.AlreadyExists or StatusCode.FailedPrecondition => fault.Status.Detail,
            StatusCode.Unauthenticated => $"the server at {servers} does not know who calls: {fault.Status.Detail}",
            StatusCode.PermissionDenied => $"the server at {servers} refused: {fault.Status.Detail}",
            StatusCode.ResourceExhausted when !fault.Status.Detail.Contains("message size", StringComparison.Ordinal) =>
                $"the server at {servers} takes no more now: {fault.Status.Detail}",
            StatusCode.ResourceExhausted => $"the request is larger than the server at {servers} accepts: {fault.Status.Detail}",
            StatusCode.Cancelled => "the call was cancelled",
            StatusCode.Unimplemented => $"what answers at {servers} is not a ClearView server of this version",
            _ => $"the server at {servers} failed ({fault.StatusCode}): {fault.Status.Detail}",
        };
        return WithViolations(opening, violations);
    }

    private static string WithViolations(string opening, IEnumerable<FieldViolation> violations) =>
        opening + string.Concat(violations.Select(violation => $"{Environment.NewLine}  {violation.Field}: {violation.Description}"));

    // "Error starting gRPC call. ..." helps nobody; the socket's own message does.
    private static string Innermost(RpcException fault)
    {
        var inner = fault.Status.DebugException;
        while (inner?.InnerException is { } deeper)
        {
            inner = deeper;
        }
        return (inner?.Message ?? fault.Status.Detail).TrimEnd('.');
    }
}
