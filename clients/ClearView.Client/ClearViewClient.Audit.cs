using ClearView.V1;

namespace ClearView.Client;

/// <content>Proof that nothing that was recorded has been changed since.</content>
public sealed partial class ClearViewClient
{
    /// <summary>Lets the server compute the hash of every record and of every link again.</summary>
    /// <param name="noted">Heads that were noted elsewhere; each must still be in the store.</param>
    /// <param name="progress">Is told how far it has come; may be <see langword="null"/>.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>What was found; a break is no exception.</returns>
    /// <exception cref="ClearViewCallException">A head is none, or the server could not be reached, or not until the end.</exception>
    public async Task<VerificationSummary> VerifyChainAsync(
        IEnumerable<ChainHead> noted, Action<VerificationProgress>? progress = null, CancellationToken cancellationToken = default)
    {
        var request = new VerifyChainRequest { NotedHeads = { noted } };
        await foreach (var response in StreamAsync(call => _audit.VerifyChain(request, call), cancellationToken).ConfigureAwait(false))
        {
            if (response.PartCase == VerifyChainResponse.PartOneofCase.Summary)
            {
                return response.Summary;
            }
            progress?.Invoke(response.Progress);
        }
        throw Calls.CallFault.From(new Grpc.Core.RpcException(new Grpc.Core.Status(Grpc.Core.StatusCode.Internal, "the verification has no end")), _servers);
    }

    /// <summary>Exports the readings of a lot, a product or a line, signed.</summary>
    /// <param name="request">Which readings.</param>
    /// <param name="file">Takes the extract.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>The signature.</returns>
    /// <exception cref="ClearViewCallException">No reading matches, the server has no key, or it could not be reached until the end.</exception>
    public async Task<ExtractSignature> ExportExtractAsync(ExportExtractRequest request, Stream file, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(file);
        await foreach (var response in StreamAsync(call => _audit.ExportExtract(request, call), cancellationToken).ConfigureAwait(false))
        {
            if (response.PartCase == ExportExtractResponse.PartOneofCase.Signature)
            {
                return response.Signature;
            }
            await file.WriteAsync(response.Content.Memory, cancellationToken).ConfigureAwait(false);
        }
        throw Calls.CallFault.From(new Grpc.Core.RpcException(new Grpc.Core.Status(Grpc.Core.StatusCode.Internal, "the extract has no signature")), _servers);
    }

    /// <summary>Gives the newest link of each chain, to be noted elsewhere.</summary>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server could not be reached.</exception>
    public async Task<IReadOnlyList<ChainHead>> ListHeadsAsync(CancellationToken cancellationToken = default)
    {
        var response = await CallAsync(call => _audit.ListHeadsAsync(new ListHeadsRequest(), call), cancellationToken).ConfigureAwait(false);
        return response.Heads;
    }
}
