using ClearView.Records.Model;

using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace ClearView.Server.Hosting;

/// <summary>Healthy while the store can be reached.</summary>
internal sealed class StoreHealthCheck(IReadingStore store) : IHealthCheck
{
    /// <summary>How often it is done for those who watch the health; a failed write shows for longer.</summary>
    public static readonly TimeSpan Period = TimeSpan.FromSeconds(2);

    public async Task<HealthCheckResult> CheckHealthAsync(
        HealthCheckContext context, CancellationToken cancellationToken = default)
    {
        try
        {
            await store.CheckAsync(cancellationToken).ConfigureAwait(false);
            return HealthCheckResult.Healthy();
        }
        catch (Exception error) when (error is StoreUnavailableException or ObjectDisposedException)
        {
            return HealthCheckResult.Unhealthy(error.Message);
        }
    }
}
