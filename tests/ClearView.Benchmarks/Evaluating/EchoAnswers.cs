using ClearView.V1;

namespace ClearView.Benchmarks.Evaluating;

/// <summary>What the echo answers: answers of the real server, so that they have its size.</summary>
internal sealed class EchoAnswers
{
    /// <summary>To a specimen of a stream, under its correlation identifier.</summary>
    public Evaluation Evaluation { get; set; } = new();

    /// <summary>To a batch of a stream, under its correlation identifier.</summary>
    public EvaluateBatchesResponse Batch { get; set; } = new();

    /// <summary>To a post.</summary>
    public PostReadingResponse Post { get; set; } = new();
}
