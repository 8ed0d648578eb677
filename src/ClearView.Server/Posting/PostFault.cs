using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Posting;

/// <summary>Why a post is refused for good.</summary>
/// <param name="Code">The status that says so.</param>
/// <param name="Summary">What is at fault, in one phrase.</param>
/// <param name="Violations">Every field at fault, or in which the stored reading differs; may be empty.</param>
internal sealed record PostFault(StatusCode Code, string Summary, IReadOnlyList<FieldViolation> Violations);
