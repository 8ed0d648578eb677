using System.Collections.Immutable;

using ClearView.Records.Audit;

namespace ClearView.Server.Tests;

/// <summary>Chains whose verification goes on until it is stopped, and tells how far it has come when it is told to.</summary>
internal sealed class GatedAudit : IAuditStore
{
    private readonly TaskCompletionSource<IProgress<long>> _begun = new(TaskCreationOptions.RunContinuationsAsynchronously);
    private readonly TaskCompletionSource _stopped = new(TaskCreationOptions.RunContinuationsAsynchronously);

    /// <summary>Completes when the verification was stopped.</summary>
    public Task Stopped => _stopped.Task;

    /// <summary>Tells how far it has come.</summary>
    public async Task ReportAsync(long links) => (await _begun.Task).Report(links);

    public Task<ImmutableArray<ChainHead>> HeadsAsync(CancellationToken cancellationToken) => Task.FromResult<ImmutableArray<ChainHead>>([]);

    public Task<ImmutableArray<PlacedLink>> LinksAsync(IReadOnlyList<RecordKey> records, CancellationToken cancellationToken) =>
        Task.FromResult<ImmutableArray<PlacedLink>>([]);

    public async Task<AuditReport> VerifyAsync(IReadOnlyList<ChainHead> noted, IProgress<long>? progress, CancellationToken cancellationToken)
    {
        _begun.SetResult(progress!);
        try
        {
            await Task.Delay(Timeout.Infinite, cancellationToken);
        }
        finally
        {
            _stopped.SetResult();
        }

        throw new InvalidOperationException("It ends only when it is stopped.");
    }
}
