using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

/// <summary>A client that always has another post.</summary>
internal sealed class EndlessPosts : IAsyncStreamReader<PostReadingsRequest>
{
    private readonly Lock _lock = new();
    private readonly List<(int Count, TaskCompletionSource Reached)> _awaited = [];
    private int _count;

    /// <summary>Posts that were read.</summary>
    public int Count => Volatile.Read(ref _count);

    public PostReadingsRequest Current { get; private set; } = new();

    public Task<bool> MoveNext(CancellationToken cancellationToken)
    {
        lock (_lock)
        {
            Current = PostStreamExamples.Post(_count++);
            foreach (var (_, reached) in _awaited.Where(one => one.Count <= _count))
            {
                reached.TrySetResult();
            }
        }

        return Task.FromResult(true);
    }

    /// <summary>Waits until a number of posts was read.</summary>
    public Task WaitForAsync(int count, CancellationToken cancellationToken)
    {
        lock (_lock)
        {
            var reached = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
            _awaited.Add((count, reached));
            if (_count >= count)
            {
                reached.SetResult();
            }

            return reached.Task.WaitAsync(cancellationToken);
        }
    }
}
