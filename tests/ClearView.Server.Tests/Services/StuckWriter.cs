using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Tests.Services;

/// <summary>A connection whose windows are full: no answer ever gets through.</summary>
internal sealed class StuckWriter : IServerStreamWriter<PostReadingsResponse>
{
    private readonly TaskCompletionSource _begun = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Completes when the first answer is written.</summary>
    public Task Begun => _begun.Task;

    public WriteOptions? WriteOptions { get; set; }

    public Task WriteAsync(PostReadingsResponse message) => WriteAsync(message, CancellationToken.None);

    public Task WriteAsync(PostReadingsResponse message, CancellationToken cancellationToken)
    {
        _begun.TrySetResult();
        return Task.Delay(Timeout.Infinite, cancellationToken);
    }
}
