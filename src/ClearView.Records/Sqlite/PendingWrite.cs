using Microsoft.Data.Sqlite;

namespace ClearView.Records.Sqlite;

/// <summary>One row, or rows that belong together, waiting for the writer, and the promise given for them.</summary>
/// <typeparam name="TOutcome">What the promise brings.</typeparam>
/// <param name="write">Writes the rows through the writer's connection.</param>
internal sealed class PendingWrite<TOutcome>(Func<SqliteTransaction, DateTimeOffset, TOutcome> write) : IPendingWrite
    where TOutcome : class
{
    // The poster goes on elsewhere, never on the writer's thread.
    private readonly TaskCompletionSource<TOutcome> _promise = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private TOutcome? _outcome;

    public Task<TOutcome> Task => _promise.Task;

    public void Execute(SqliteTransaction transaction, DateTimeOffset now) => _outcome = write(transaction, now);

    public void Complete() => _promise.TrySetResult(_outcome!);

    public void Fail(Exception error) => _promise.TrySetException(error);
}
