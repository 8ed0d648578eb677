using ClearView.V1;

namespace ClearView.Client;

/// <content>Studies: capability, rolls, lots, sampling. Nothing is stored.</content>
public sealed partial class ClearViewClient
{
    /// <summary>Estimates the capability of a process against limits.</summary>
    /// <param name="request">Readings, limits and options.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>The capability, or in it the reason why there are no indices.</returns>
    /// <exception cref="ClearViewCallException">The server refused, has no such specification, or could not be reached.</exception>
    public async Task<Capability> EstimateCapabilityAsync(EstimateCapabilityRequest request, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        var response = await CallAsync(call => _studies.EstimateCapabilityAsync(request, call), cancellationToken).ConfigureAwait(false);
        return response.Capability;
    }

    /// <summary>Maps a roll or a longer piece of web.</summary>
    /// <param name="request">Readings, limits and options.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused, no reading has a place on the web, or the server could not be reached.</exception>
    public async Task<RollMap> MapRollAsync(MapRollRequest request, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        var response = await CallAsync(call => _studies.MapRollAsync(request, call), cancellationToken).ConfigureAwait(false);
        return response.RollMap;
    }

    /// <summary>Compares lots on one measurand or several.</summary>
    /// <param name="request">Lots and options.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <returns>One comparison per measurand, in the order asked.</returns>
    /// <exception cref="ClearViewCallException">The server refused, a lot has no reading, or the server could not be reached.</exception>
    public Task<CompareLotsResponse> CompareLotsAsync(CompareLotsRequest request, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        return CallAsync(call => _studies.CompareLotsAsync(request, call), cancellationToken);
    }

    /// <summary>Plans how many specimens to take, or acceptance by variables.</summary>
    /// <param name="request">The question.</param>
    /// <param name="cancellationToken">Gives the call up.</param>
    /// <exception cref="ClearViewCallException">The server refused or could not be reached.</exception>
    public Task<PlanSamplingResponse> PlanSamplingAsync(PlanSamplingRequest request, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        return CallAsync(call => _studies.PlanSamplingAsync(request, call), cancellationToken);
    }
}
