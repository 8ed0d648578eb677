namespace ClearView.Server.Posting;

/// <summary>Room for the posts of a stream that are taken and not yet answered. One enters, another lets leave.</summary>
/// <param name="mostPosts">Posts that find room together; a post alone always does.</param>
/// <param name="mostBytes">Bytes on the wire that find room together.</param>
internal sealed class PostRoom(int mostPosts, long mostBytes)
{
    private readonly Lock _lock = new();
    private int _posts;
    private long _bytes;
    private TaskCompletionSource? _left;

    /// <summary>Waits until there is room for a post, and takes it.</summary>
    /// <param name="bytes">Its bytes on the wire.</param>
    /// <param name="cancellationToken">Stops the wait.</param>
    public async ValueTask EnterAsync(int bytes, CancellationToken cancellationToken)
    {
        while (true)
        {
            Task left;
            lock (_lock)
            {
                if (_posts == 0 || (_posts < mostPosts && _bytes + bytes <= mostBytes))
                {
                    _posts++;
                    _bytes += bytes;
                    return;
                }

                _left ??= new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
                left = _left.Task;
            }

            await left.WaitAsync(cancellationToken).ConfigureAwait(false);
        }
    }

    /// <summary>Gives the room of a post back.</summary>
    /// <param name="bytes">Its bytes on the wire.</param>
    public void Leave(int bytes)
    {
        TaskCompletionSource? left;
        lock (_lock)
        {
            _posts--;
            _bytes -= bytes;
            left = _left;
            _left = null;
        }

        left?.TrySetResult();
    }
}
