namespace ClearView.Records.Writing;

/// <summary>Wakes everyone who waits for something new in a store.</summary>
internal sealed class Changes
{
    private TaskCompletionSource _next = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Completes at the next change.</summary>
    public Task Next => Volatile.Read(ref _next).Task;

    /// <summary>Tells that something changed.</summary>
    public void Tell()
    {
        var next = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        Interlocked.Exchange(ref _next, next).TrySetResult();
    }
}
