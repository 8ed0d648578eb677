using ClearView.Records.Model;
using ClearView.V1;

namespace ClearView.Server.Posting;

/// <summary>A post that was taken: decided already, or handed to the store.</summary>
/// <param name="Request">The post.</param>
/// <param name="Decided">What came of it, where that is known without the store.</param>
/// <param name="Entry">What was handed to the store.</param>
/// <param name="Append">Completes when the entry is durable.</param>
internal sealed record PendingPost(PostReadingRequest Request, PostOutcome? Decided, ReadingEntry? Entry, Task<AppendOutcome>? Append)
{
    /// <summary>Whether an answer can be given without a wait.</summary>
    public bool IsReady => Append is null || Append.IsCompletedSuccessfully;
}
