using System.Threading.Channels;

using ClearView.Contract.Validation;
using ClearView.Records.Audit;
using ClearView.Server.Extracts;
using ClearView.Server.Hosting;
using ClearView.Server.Mapping;
using ClearView.V1;

using Grpc.Core;

namespace ClearView.Server.Services;

/// <summary>The chains of the store, on the wire.</summary>
internal sealed class AuditGrpcService(
    IAuditStore audit, ExtractWriter extracts, OpenStreams openStreams, ILogger<AuditGrpcService> logger)
    : AuditService.AuditServiceBase
{
    public override async Task VerifyChain(
        VerifyChainRequest request, IServerStreamWriter<VerifyChainResponse> responseStream, ServerCallContext context)
    {
        openStreams.Add(context.GetHttpContext().Response);
        var violations = new Violations();
        var noted = AuditMapper.ReadNoted(request, violations);
        FieldFaults.ThrowIfAny(violations);
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(context.CancellationToken, openStreams.Stopping);

        // Only the newest figure counts: a slow caller does not hold the verification up.
        var progress = Channel.CreateBounded<long>(new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropOldest });
        var total = (await audit.HeadsAsync(context.CancellationToken).ConfigureAwait(false)).Sum(head => head.Position);
        var verification = VerifyAsync(noted, progress.Writer, stop.Token);
        try
        {
            await foreach (var links in progress.Reader.ReadAllAsync(CancellationToken.None).ConfigureAwait(false))
            {
                var part = new VerificationProgress { LinkCount = links, TotalLinkCount = Math.Max(links, total) };
                await openStreams.WriteAsync(responseStream, new VerifyChainResponse { Progress = part }, context).ConfigureAwait(false);
            }
        }
        catch
        {
            // Nobody takes what it finds any more.
            await stop.CancelAsync().ConfigureAwait(false);
            await ((Task)verification).ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing);
            throw;
        }

        var report = await WaitAsync(verification).ConfigureAwait(false);
        AuditLog.Verified(logger, report.Links, report.Break?.Fault.ToString() ?? "none");
        var summary = AuditMapper.ToSummary(report);
        await openStreams.WriteAsync(responseStream, new VerifyChainResponse { Summary = summary }, context).ConfigureAwait(false);
    }

    public override async Task<ListHeadsResponse> ListHeads(ListHeadsRequest request, ServerCallContext context)
    {
        var heads = await audit.HeadsAsync(context.CancellationToken).ConfigureAwait(false);
        return new ListHeadsResponse { Heads = { heads.Select(AuditMapper.ToHead) } };
    }

    public override async Task ExportExtract(
        ExportExtractRequest request, IServerStreamWriter<ExportExtractResponse> responseStream, ServerCallContext context)
    {
        openStreams.Add(context.GetHttpContext().Response);
        if (request.Line.Length + request.Product.Length + request.Lot.Length == 0)
        {
            throw FieldFaults.Invalid([new FieldViolation { Field = "lot", Description = "was empty, and so were line and product; name at least one." }]);
        }

        var count = await extracts.WriteAsync(
            request, part => openStreams.WriteAsync(responseStream, part, context), context.CancellationToken).ConfigureAwait(false);
        AuditLog.Exported(logger, count);
    }

    private async Task<AuditReport> VerifyAsync(List<Records.Audit.ChainHead> noted, ChannelWriter<long> progress, CancellationToken stop)
    {
        try
        {
            return await audit.VerifyAsync(noted, new ProgressOf<long>(links => progress.TryWrite(links)), stop).ConfigureAwait(false);
        }
        finally
        {
            progress.Complete();
        }
    }

    private async Task<AuditReport> WaitAsync(Task<AuditReport> verification)
    {
        try
        {
            return await verification.ConfigureAwait(false);
        }
        catch (OperationCanceledException) when (openStreams.Stopping.IsCancellationRequested)
        {
            throw new RpcException(new Status(StatusCode.Unavailable, "The server is stopping; trying again is safe."));
        }
    }
}
