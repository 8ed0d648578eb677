using System.Collections.Immutable;

using ClearView.Client.Calls;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Client;

/// <summary>The server did not do what it was asked. The message says so in plain words, every field at fault included.</summary>
public sealed class ClearViewCallException : Exception
{
    internal ClearViewCallException(StatusCode status, string message, ImmutableArray<FieldViolation> violations, Exception? inner)
        : base(message, inner)
    {
        Status = status;
        Violations = violations;
    }

    /// <summary>What a post of the same reading by itself would throw, where a stream of posts refused it.</summary>
    /// <param name="refusal">The refusal.</param>
    public static ClearViewCallException From(PostRefusal refusal)
    {
        ArgumentNullException.ThrowIfNull(refusal);
        return new ClearViewCallException((StatusCode)refusal.StatusCode, CallFault.Compose(refusal), [.. refusal.FieldViolations], inner: null);
    }

    /// <summary>The status code, for example <see cref="StatusCode.InvalidArgument"/>.</summary>
    public StatusCode Status { get; }

    /// <summary>Every field at fault; empty where the fault is not in the fields.</summary>
    public ImmutableArray<FieldViolation> Violations { get; }

    /// <summary>Whether the server could not be reached or did not answer in time, so that the same call may succeed later.</summary>
    public bool IsTransient => Status is StatusCode.Unavailable or StatusCode.DeadlineExceeded;
}
