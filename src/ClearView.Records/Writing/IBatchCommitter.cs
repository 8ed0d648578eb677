namespace ClearView.Records.Writing;

/// <summary>Writes a batch in one transaction of its engine.</summary>
/// <typeparam name="TWrite">A write of that engine.</typeparam>
internal interface IBatchCommitter<in TWrite> : IAsyncDisposable
    where TWrite : IPromise
{
    /// <summary>Writes every member and commits. Either the whole batch is durable afterwards, or an exception comes.</summary>
    /// <param name="batch">The writes, in the order of posting. May be handed in again after a failure.</param>
    Task CommitAsync(IReadOnlyList<TWrite> batch);

    /// <summary>Whether the failure is of one member of the batch, so that the others may succeed without it.</summary>
    /// <param name="error">What <see cref="CommitAsync"/> threw.</param>
    bool IsOfOneWrite(Exception error);

    /// <summary>Whether reading meets the failure as well, so that a reader can tell when it is over.</summary>
    /// <param name="error">What <see cref="CommitAsync"/> threw.</param>
    bool ShowsInReads(Exception error);
}
