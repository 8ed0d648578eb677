using ClearView.Records.Writing;

namespace ClearView.Records.Tests.Writing;

/// <summary>Commits when a test lets it, and fails when a test wants it to.</summary>
internal sealed class FragileCommitter : IBatchCommitter<NumberedWrite>
{
    private readonly SemaphoreSlim _begun = new(0);
    private readonly SemaphoreSlim _mayEnd = new(0);
    private Exception? _failure;

    /// <summary>Numbers of what was committed, in its order.</summary>
    public List<int> Committed { get; } = [];

    /// <summary>Whether failures concern one write only.</summary>
    public bool FailsForOne { get; init; }

    /// <summary>Waits until a commit has begun, and lets it end.</summary>
    /// <param name="failure">What it fails with; <see langword="null"/> lets it succeed.</param>
    /// <param name="meanwhile">What happens while the commit is under way.</param>
    public async Task CommitOneAsync(Exception? failure, Action? meanwhile = null)
    {
        await _begun.WaitAsync(TestContext.Current.CancellationToken);
        meanwhile?.Invoke();
        _failure = failure;
        _mayEnd.Release();
    }

    public async Task CommitAsync(IReadOnlyList<NumberedWrite> batch)
    {
        _begun.Release();
        await _mayEnd.WaitAsync();
        if (_failure is { } failure)
        {
            throw failure;
        }

        foreach (var write in batch)
        {
            Committed.Add(write.Number);
            write.Outcome = write;
        }
    }

    public bool IsOfOneWrite(Exception error) => FailsForOne;

    public ValueTask DisposeAsync()
    {
        _begun.Dispose();
        _mayEnd.Dispose();
        return ValueTask.CompletedTask;
    }
}
