using ClearView.Records.Model;

namespace ClearView.Records.Sqlite;

/// <summary>A reading that waits for the writer, and the promise given for it.</summary>
internal sealed class PendingAppend(ReadingEntry entry)
{
    // The poster goes on elsewhere, never on the writer's thread.
    private readonly TaskCompletionSource<AppendOutcome> _promise = new(TaskCreationOptions.RunContinuationsAsynchronously);

    public ReadingEntry Entry { get; } = entry;

    public Task<AppendOutcome> Task => _promise.Task;

    public void Complete(AppendOutcome outcome) => _promise.TrySetResult(outcome);

    public void Fail(Exception error) => _promise.TrySetException(error);
}
