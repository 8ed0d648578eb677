namespace ClearView.Records.Writing;

/// <summary>Wakes everyone who waits for something new in a store.</summary>
/// <param name="onFirstWait">Called once, when somebody waits for the first time.</param>
internal sealed class Changes(Action? onFirstWait = null)
{
    private TaskCompletionSource _next = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private int _isAwaited;

    /// <summary>Completes at the next change.</summary>
    public Task Next
    {
        get
        {
            var next = Volatile.Read(ref _next).Task;
            if (onFirstWait is not null && Interlocked.Exchange(ref _isAwaited, 1) == 0)
            {
                onFirstWait();
            }

            return next;
        }
    }

    /// <summary>Tells that something changed.</summary>
    public void Tell()
    {
        var next = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        Interlocked.Exchange(ref _next, next).TrySetResult();
    }
}
