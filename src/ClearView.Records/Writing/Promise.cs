using ClearView.Records.Model;

namespace ClearView.Records.Writing;

/// <summary>A write that waits for its turn, and the promise given for it.</summary>
/// <typeparam name="TOutcome">What the promise brings.</typeparam>
internal abstract class Promise<TOutcome> : IPromise
    where TOutcome : class
{
    // The poster goes on elsewhere, never on the writer's thread.
    private readonly TaskCompletionSource<TOutcome> _source = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Completes when the write is durable.</summary>
    public Task<TOutcome> Task => _source.Task;

    /// <summary>What came of the write; handed on when its transaction is committed.</summary>
    public TOutcome? Outcome { get; set; }

    /// <inheritdoc/>
    public WriteLane? Lane { get; init; }

    /// <inheritdoc/>
    public void Complete() => _source.TrySetResult(Outcome!);

    /// <inheritdoc/>
    public void Fail(Exception error) => _source.TrySetException(error);
}
